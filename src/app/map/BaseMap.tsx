/** A base map of the user's own under the lake: off until one is chosen, a file or the address that the server was told. */

import { type ChangeEvent, useState } from 'react';
import type { LakeMap } from './lake-map.ts';
import type { TileFile } from './tile-file.ts';

/** Deepest zoom asked of a server whose own is not known. */
const USUAL_MAX_ZOOM = 18;

type Choice = { kind: 'none' } | { kind: 'address' } | { kind: 'file'; name: string };

export function BaseMap({ map }: { map: LakeMap }) {
  const [choice, setChoice] = useState<Choice>({ kind: 'none' });
  const [trouble, setTrouble] = useState<string | null>(null);
  const [address] = useState(servedAddress);

  /** What cannot be shown is told, and the map stays as it is. */
  const show = async (next: Choice, put: () => Promise<void>): Promise<void> => {
    try {
      await put();
      setTrouble(null);
      setChoice(next);
    } catch (error) {
      setTrouble((error as Error).message);
    }
  };
  const takeNone = () => show({ kind: 'none' }, () => map.setBaseMap(null));
  const takeAddress = (url: string) =>
    show({ kind: 'address' }, async () =>
      isArchive(url)
        ? map.setTileFile(await opened(url))
        : map.setBaseMap({ url, maxZoom: USUAL_MAX_ZOOM }),
    );
  const takeFile = async (e: ChangeEvent<HTMLInputElement>): Promise<void> => {
    const input = e.currentTarget;
    const file = input.files?.[0];
    if (!file) return;
    await show({ kind: 'file', name: file.name }, async () => map.setTileFile(await opened(file)));
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
        <button type="button" className="button small" onClick={() => void takeAddress(address)}>
          Use {new URL(address).host}
        </button>
      )}
      <label className="button small">
        Use a PMTiles file of pictures…
        <input type="file" accept=".pmtiles" className="visually-hidden" onChange={takeFile} />
      </label>
      {choice.kind !== 'none' && (
        <button type="button" className="button small" onClick={() => void takeNone()}>
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

/** Read by what few need: loaded when a base map is asked for. */
async function opened(from: Blob | string): Promise<TileFile> {
  const { openTileFile } = await import('./tile-file.ts');
  return openTileFile(from);
}

/** One file of tiles, and not an address for each of them. */
function isArchive(address: string): boolean {
  return new URL(address).pathname.toLowerCase().endsWith('.pmtiles');
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
