/** What the page and its workers load, as it is and as gzip makes it. */

import { gzipSync } from 'node:zlib';
import type { TestBrowser } from './chromium.ts';

export interface Loaded {
  files: string[];
  /** of all files together, in kB after gzip */
  kB: number;
  fontsKB: number;
}

/** Begins to watch; what is read later is what was loaded until then. */
export function watchLoading({ context }: TestBrowser): () => Promise<Loaded> {
  const bodies: Promise<{ url: string; bytes: number }>[] = [];
  const seen = new Set<string>();
  context.on('response', (response) => {
    const url = response.url();
    // what is kept for offline use is fetched after the page, by the worker that keeps it
    if (response.request().serviceWorker() !== null) return;
    if (!/\/assets\/|\/$/.test(new URL(url).pathname) || seen.has(url)) return;
    seen.add(url);
    bodies.push(response.body().then((body) => ({ url, bytes: gzipSync(body).length })));
  });
  return async () => {
    const all = await Promise.all(bodies);
    const kB = (font: boolean) =>
      all.reduce((sum, b) => sum + (b.url.endsWith('.woff2') === font ? b.bytes : 0), 0) / 1000;
    return { files: all.map((b) => b.url), kB: kB(false), fontsKB: kB(true) };
  };
}
