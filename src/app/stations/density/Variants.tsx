/** The analysis and its variants side by side: kept under a name, renamed, removed, made the analysis, estimated again. */

import { useId, useMemo, useState } from 'react';
import { capital, gloss, term, terms } from '../../../../shared/glossary.ts';
import {
  LONGEST_NAME,
  type PlacedVariant,
  parseVariants,
  VARIANTS_FILE,
  variantEntry,
  variantsText,
} from '../../../../shared/variants.ts';
import { quoted, visible } from '../../../../shared/words.ts';
import { HEADINGS } from '../../../present/headings.ts';
import {
  choicesOf,
  compareVariants,
  type OutcomeResult,
  outcomeOf,
  type VariantLine,
} from '../../../present/variants.ts';
import type { AppActions, JudgedView, Work } from '../../contract.ts';
import { Caution } from '../../shell/ui.tsx';
import { ANALYSIS_FILE, decode, WHOLE_FILE, withChoices } from '../../state/edits.ts';
import {
  isFull,
  keepVariant,
  nameProblem,
  removeVariant,
  renameVariant,
} from '../../state/variant-edits.ts';
import type { Studies } from '../../study-contract.ts';
import { Running } from './Studies.tsx';
import { VariantBlock } from './VariantBlock.tsx';
import './variants.css';

export function Variants({
  work,
  judged,
  result,
  isSettled,
  studies,
  actions,
}: {
  work: Work;
  judged: Pick<JudgedView, 'analysis' | 'fingerprint'>;
  /** of the survey as it is now; null where that has no estimate */
  result: OutcomeResult | null;
  /** no estimate is under way, was stopped or failed */
  isSettled: boolean;
  studies: Studies;
  actions: Pick<AppActions, 'edit' | 'updateVariants' | 'cancelStudy'>;
}) {
  const { analysis, fingerprint } = judged;
  const file = work.files.get(VARIANTS_FILE);
  const text = useMemo(() => (file === undefined ? '' : decode(file)), [file]);
  const { variants, problems } = useMemo(() => parseVariants(text), [text]);
  const outcome = useMemo(
    () => (result === null || !isSettled ? null : outcomeOf(result)),
    [result, isSettled],
  );
  const compared = useMemo(
    () => compareVariants(variants, { analysis, data: fingerprint, outcome }),
    [variants, analysis, fingerprint, outcome],
  );
  const stale = compared?.lines.filter((l) => l.isStale) ?? [];
  const { running } = studies;

  const adopt = ({ name, choices }: PlacedVariant) =>
    actions.edit({
      file: ANALYSIS_FILE,
      row: null,
      column: WHOLE_FILE,
      after: withChoices(work, choices),
      reason: `the ${term('variant')} ${quoted(name)} made the analysis`,
    });

  return (
    <section className="variants" aria-labelledby="variants-title">
      <h2 id="variants-title">{HEADINGS.variants}</h2>
      <p className="small quiet">
        {capital(term('variant'))}: {gloss('variant')}. Keep the choices as they are, change them,
        and hold both side by side; the answer stays that of the analysis.
      </p>
      {problems.length > 0 && (
        <Unread
          problems={problems}
          onSetAside={() =>
            actions.edit({
              file: VARIANTS_FILE,
              row: null,
              column: WHOLE_FILE,
              after: variantsText(variants.map(variantEntry)),
              reason: 'what could not be read is removed',
            })
          }
        />
      )}
      <Keep
        variants={variants}
        canKeep={isSettled && problems.length === 0 && !isFull(variants)}
        onKeep={(name) =>
          actions.edit(keepVariant(variants, text, { name, choices: choicesOf(analysis), outcome }))
        }
      />
      {compared !== null && (
        <>
          <p>{compared.sentence}</p>
          <ol className="plain-list variant-list">
            {compared.lines.map((line) => {
              const own = variants.find((v) => v.place === line.place);
              return (
                <VariantBlock
                  key={line.place ?? 'now'}
                  line={line}
                  axis={compared.axis}
                  {...(own === undefined
                    ? {}
                    : {
                        onAdopt: () => adopt(own),
                        onRename: (name: string) => actions.edit(renameVariant(own, name)),
                        onRemove: () => actions.edit(removeVariant(own)),
                        problemOf: (name: string) => nameProblem(name, variants, own.name),
                      })}
                />
              );
            })}
          </ol>
          {stale.length > 0 && running?.kind !== 'variants' && (
            <p>
              <button
                type="button"
                className="button small"
                disabled={running !== null || !isSettled}
                onClick={() => actions.updateVariants(namesOf(stale, variants))}
              >
                Estimate {stale.length === 1 ? 'it' : `these ${stale.length}`} again
              </button>
            </p>
          )}
          {running?.kind === 'variants' && (
            <Running running={running} onCancel={actions.cancelStudy} />
          )}
          <p className="small quiet">{compared.note}</p>
        </>
      )}
    </section>
  );
}

function namesOf(lines: readonly VariantLine[], variants: readonly PlacedVariant[]): string[] {
  return variants.filter((v) => lines.some((l) => l.place === v.place)).map((v) => v.name);
}

function Unread({ problems, onSetAside }: { problems: string[]; onSetAside(): void }) {
  return (
    <Caution>
      <p>
        {VARIANTS_FILE} cannot be read in full: {problems.map(visible).join('; ')}. No number
        depends on it.
      </p>
      <button type="button" className="button small" onClick={onSetAside}>
        Remove what cannot be read
      </button>
    </Caution>
  );
}

function Keep({
  variants,
  canKeep,
  onKeep,
}: {
  variants: readonly PlacedVariant[];
  canKeep: boolean;
  onKeep(name: string): void;
}) {
  const id = useId();
  const [typed, setTyped] = useState('');
  const name = typed.trim();
  const replaces = variants.some((v) => v.name === name);
  return (
    <form
      className="variant-keep"
      onSubmit={(event) => {
        event.preventDefault();
        if (name === '' || !canKeep) return;
        onKeep(name);
        setTyped('');
      }}
    >
      <label htmlFor={id}>Keep these choices as</label>
      <span className="variant-name-line">
        <input
          id={id}
          className="field"
          value={typed}
          maxLength={LONGEST_NAME}
          autoComplete="off"
          placeholder="a name, such as no depth curve"
          aria-describedby={`${id}p`}
          onChange={(event) => setTyped(event.target.value)}
        />
        <button type="submit" className="button small" disabled={name === '' || !canKeep}>
          {replaces ? 'Replace' : 'Keep'}
        </button>
      </span>
      <span id={`${id}p`} role="status" className="small quiet">
        {replaces ? `The ${term('variant')} of this name is replaced.` : ''}
        {variants.length > 0 && isFull(variants)
          ? ` There is no room for more than ${variants.length} ${terms('variant')}.`
          : ''}
      </span>
    </form>
  );
}
