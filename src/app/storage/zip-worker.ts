/** Packs and unpacks zips beside the page, so that a large map does not hold it up. */

import * as Comlink from 'comlink';
import { packZip } from '../../publish/pack-zip.ts';
import { type LooseFile, unpackSurvey } from './survey-zip.ts';

const tool = {
  /** All files with this time. */
  async pack(files: Map<string, Uint8Array | string>, at: string): Promise<Uint8Array> {
    const zip = await packZip(files, at);
    return Comlink.transfer(zip, [zip.buffer]);
  },
  /** Files of a survey wherever they lie in the zip; throws with a sentence when it is damaged or holds too much. */
  async unpack(zip: Blob): Promise<LooseFile[]> {
    const loose = await unpackSurvey(zip);
    return Comlink.transfer(
      loose,
      loose.map((file) => file.bytes.buffer),
    );
  },
};

export type ZipTool = typeof tool;

Comlink.expose(tool);
