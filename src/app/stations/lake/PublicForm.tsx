/** What is saved for the public: the map in one file, posters, pictures for posts; with the few words that only the reader knows. Loaded when it is unfolded. */

import { useId, useState } from 'react';
import { COARSE_M, type PublicWishes } from '../../../../shared/public-map.ts';
import type { PublicText } from '../../contract.ts';
import { useApp } from '../../state/app-context.tsx';
import { download, fileName } from '../../storage/download.ts';
import { zipTool } from '../../storage/zip.ts';

export function PublicForm({ lake }: { lake: string }) {
  const { core } = useApp();
  const [texts, setTexts] = useState({ title: '', contact: '', nextUpdate: '', coarse: '' });
  const [told, setTold] = useState('');
  const coarseM = texts.coarse.trim() === '' ? null : Number(texts.coarse);
  const wrong = coarseM !== null && !(coarseM >= COARSE_M.least && coarseM <= COARSE_M.most);

  const save = async (write: (files: PublicText[], lake: string) => Promise<void>) => {
    setTold('');
    try {
      const files = await core.publishPublic(wishesOf(texts), coarseM);
      if (files === null) throw new Error('there is no outline of the lake');
      await write(files, lake);
      setTold('Saved.');
    } catch (error) {
      setTold(`It could not be saved: ${(error as Error).message}.`);
    }
  };
  const field = (key: keyof typeof texts, label: string, hint: string) => (
    <Field
      label={label}
      hint={hint}
      value={texts[key]}
      invalid={key === 'coarse' && wrong}
      onChange={(value) => setTexts({ ...texts, [key]: value })}
    />
  );
  return (
    <>
      <p className="small">
        One file in English, Spanish and French that opens from disk and asks nothing of any
        network. It gives the number as a range, shows where divers searched and what people can do.
        Observers are not named in it.
      </p>
      {field('title', 'Heading', `left empty: ${lake} and what it is about`)}
      {field('contact', 'Who to ask', 'a name, a telephone number, an address')}
      {field('nextUpdate', 'Next update', 'a day as 2027-09-30, or words')}
      {field(
        'coarse',
        'Show places as squares of so many metres',
        `left empty: where they are; ${COARSE_M.least} to ${COARSE_M.most.toLocaleString('en')}: the exact places are not in the files`,
      )}
      <p className="for-the-public-saves">
        <button
          type="button"
          className="button"
          disabled={wrong}
          onClick={() => void save(saveMap)}
        >
          Save the public map
        </button>
        <button
          type="button"
          className="button"
          disabled={wrong}
          onClick={() => void save(savePrints)}
        >
          Save posters and pictures (zip)
        </button>
      </p>
      <p role="status" className="small quiet">
        {told}
      </p>
    </>
  );
}

function Field({
  label,
  hint,
  value,
  invalid,
  onChange,
}: {
  label: string;
  hint: string;
  value: string;
  invalid: boolean;
  onChange(value: string): void;
}) {
  const id = useId();
  return (
    <p className="for-the-public-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        value={value}
        aria-describedby={`${id}-hint`}
        aria-invalid={invalid}
        onChange={(event) => onChange(event.target.value)}
      />
      <span id={`${id}-hint`} className="small quiet">
        {hint}
      </span>
    </p>
  );
}

function wishesOf(texts: Record<'title' | 'contact' | 'nextUpdate', string>): PublicWishes {
  const given = (text: string): string | null => (text.trim() === '' ? null : text.trim());
  return {
    title: given(texts.title),
    contact: given(texts.contact),
    nextUpdate: given(texts.nextUpdate),
  };
}

async function saveMap(files: PublicText[], lake: string): Promise<void> {
  const map = files.find((file) => file.kind === 'map');
  if (map === undefined) throw new Error('got no map, expected one');
  const bytes = new TextEncoder().encode(map.text);
  download(bytes, fileName(lake, 'public-map', 'html'), 'text/html');
}

/** Pictures as SVG and, as posts want them, as PNG. */
async function savePrints(files: PublicText[], lake: string): Promise<void> {
  const { picturePng } = await import('../../shell/figure-svg.ts');
  const prints = new Map<string, Uint8Array | string>();
  for (const { kind, name, pixels, text } of files) {
    if (kind === 'map') continue;
    prints.set(name, text);
    if (pixels === null) continue;
    const [widthPx, heightPx] = pixels;
    const png = await picturePng({ svg: text, widthPx, heightPx }, 1);
    prints.set(name.replace(/svg$/, 'png'), png);
  }
  const zip = await zipTool().pack(prints, new Date().toISOString());
  download(zip, fileName(lake, 'posters-and-pictures'), 'application/zip');
}
