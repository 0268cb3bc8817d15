/** Packs and unpacks zips beside the page, so that a large map does not hold it up. */

import * as Comlink from 'comlink';
import { unzipSync, type Zippable, zipSync } from 'fflate';
import type { LooseFile } from './survey-files.ts';

/** Already dense, or of no size: not worth the time. */
const STORED = /\.(tif|zip)$/;

const tool = {
  /** All files with this time; throws when a name is not plain. */
  pack(files: Map<string, Uint8Array | string>, at: string): Uint8Array {
    const entries: Zippable = {};
    for (const [name, content] of files) {
      const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
      entries[name] = [bytes, { level: STORED.test(name) ? 1 : 6, mtime: at }];
    }
    const zip = zipSync(entries);
    return Comlink.transfer(zip, [zip.buffer]);
  },
  /** Files of a survey wherever they lie in the zip; throws when they would take more than `mostBytes`. */
  unpack(zip: Uint8Array, mostBytes: number): LooseFile[] {
    let total = 0;
    const entries = unzipSync(zip, {
      filter(file) {
        if (!/\.(csv|geojson|json|tif)$/i.test(file.name)) return false;
        total += file.originalSize;
        if (total > mostBytes)
          throw new Error(
            `the zip unpacks to more than ${mostBytes / 1e6} MB, which no survey does`,
          );
        return true;
      },
    });
    return Object.entries(entries).map(([path, bytes]) => ({ path, bytes }));
  },
};

export type ZipTool = typeof tool;

Comlink.expose(tool);
