/** SHA-256 against the standard's own examples and Node's crypto (OpenSSL). */

import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { sha256 } from '../../shared/sha256.ts';

const text = (said: string) => new TextEncoder().encode(said);

describe('SHA-256', () => {
  it.each([
    // FIPS 180-4 examples (NIST): one block, two blocks; and the empty message
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('of "%s"', (message, digest) => {
    expect(sha256(text(message))).toBe(digest);
  });

  it('is OpenSSL’s at every length around the ends of blocks, and of a view into a buffer', () => {
    const bytes = Uint8Array.from({ length: 200 }, (_, i) => (i * 37 + 11) % 256);
    for (let n = 0; n <= 130; n++) {
      const part = bytes.subarray(7, 7 + n);
      expect(sha256(part), `${n} bytes`).toBe(createHash('sha256').update(part).digest('hex'));
    }
  });
});
