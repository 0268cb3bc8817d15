/** Saves a picture with its caption and credit line, as SVG or as PNG. */

import { type RefObject, useContext, useState } from 'react';
import { creditLine } from '../../present/credit.ts';
import { AppContext } from '../state/app-context.tsx';
import { download, fileName } from '../storage/download.ts';

const KINDS = { svg: 'image/svg+xml', png: 'image/png' } as const;

export function SaveFigure({
  figure,
  body,
}: {
  /** holds the title and the note */
  figure: RefObject<HTMLElement | null>;
  /** holds the picture */
  body: RefObject<HTMLDivElement | null>;
}) {
  const judged = useContext(AppContext)?.state.judged ?? null;
  const [problem, setProblem] = useState<string | null>(null);
  if (judged === null) return null;
  const save = async (kind: keyof typeof KINDS) => {
    const [outer, inner] = [figure.current, body.current];
    if (outer === null || inner === null) return;
    const said = (part: string): string => outer.querySelector(part)?.textContent?.trim() ?? '';
    try {
      // few save a picture: loaded when one is saved
      const { figureSvg, picturePng } = await import('./figure-svg.ts');
      const title = said('figcaption');
      const credit = creditLine(judged);
      const picture = figureSvg(inner, { title, note: said('.figure-note'), credit });
      const bytes =
        kind === 'svg' ? new TextEncoder().encode(picture.svg) : await picturePng(picture);
      download(bytes, fileName(judged.analysis.lake, title, kind), KINDS[kind]);
      setProblem(null);
    } catch (error) {
      setProblem(`The picture could not be saved: ${(error as Error).message}.`);
    }
  };
  return (
    <details className="figure-save no-print">
      <summary>Save the picture</summary>
      {(['svg', 'png'] as const).map((kind) => (
        <button key={kind} type="button" className="button small" onClick={() => void save(kind)}>
          {kind === 'svg' ? 'SVG, to edit' : 'PNG, to paste'}
        </button>
      ))}
      {problem !== null && (
        <p role="alert" className="small">
          {problem}
        </p>
      )}
    </details>
  );
}
