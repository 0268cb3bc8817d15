/** A base map of the user's own under the lake: off until one is chosen, a file or the address that the server was told. */

import { type ChangeEvent, useState } from 'react';
import type { LakeMap } from './lake-map.ts';
import { openTileFile } from './tile-file.ts';

/** Deepest zoom asked of a server whose own is not known. */
const USUAL_MAX_ZOOM = 18;

type Choice = { kind: 'none' } | { kind: 'address' } | { kind: 'file'; name: string };

export function BaseMap({ map }: { map: LakeMap }) {
  const [choice, setChoice] = useState<Choice>({ kind: 'none' });
  const [trouble, setTrouble] = useState<string | null>(null);
  const [address] = useState(servedAddress);

  const choose = (next: Choice): void => {
    setTrouble(null);
    setChoice(next);
    if (next.kind === 'none') void map.setBaseMap(null);
    if (next.kind === 'address' && address !== null)
      void map.setBaseMap({ url: address, maxZoom: USUAL_MAX_ZOOM });
  };
  const onFile = async (e: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const input = e.currentTarget;
    const file = input.files?.[0];
    if (!file) return;
    try {
      await map.setTileFile(await openTileFile(file));
      setTrouble(null);
      setChoice({ kind: 'file', name: file.name });
    } catch (error) {
      setTrouble((error as Error).message);
    }
    input.value = ''; // the same file can be chosen again
  };

  return (
    <details className="map-base no-print">
      <summary>Base map: {nameOf(choice, address)}</summary>
      <p className="quiet">
        {choice.kind === 'address'
          ? 'Its pictures are fetched from that address.'
          : 'Nothing is fetched from elsewhere.'}
      </p>
      {address !== null && choice.kind !== 'address' && (
        <button type="button" className="button small" onClick={() => choose({ kind: 'address' })}>
          Use {new URL(address).host}
        </button>
      )}
      <label className="button small">
        Use a PMTiles file of pictures…
        <input type="file" accept=".pmtiles" className="visually-hidden" onChange={onFile} />
      </label>
      {choice.kind !== 'none' && (
        <button type="button" className="button small" onClick={() => choose({ kind: 'none' })}>
          Without a base map
        </button>
      )}
      {trouble !== null && <p role="alert">{trouble}</p>}
      {address === null && (
        <p className="quiet">
          For tiles of a server: <code>shoalwise serve DIR --basemap ADDRESS</code>.
        </p>
      )}
    </details>
  );
}

function nameOf(choice: Choice, address: string | null): string {
  if (choice.kind === 'none') return 'none';
  return choice.kind === 'file' ? choice.name : new URL(address!).host;
}

/** What the server says that the page may fetch tiles from; anything that is not a web address is no address. */
function servedAddress(): string | null {
  const told = document.querySelector<HTMLMetaElement>('meta[name="base-map"]')?.content ?? null;
  return told !== null && /^https?:\/\//.test(told) && URL.canParse(told) ? told : null;
}
