/** The card at a spot and the line that is read out. Figures are those of the picture in the look's specification. */

import { describe, expect, it } from 'vitest';
import type { SpotView } from '../../../src/app/contract.ts';
import { spotSentence, spotWords } from '../../../src/app/map/spot-words.ts';

const SPOT: SpotView = {
  substrate: ['rock'],
  plantCover: 1,
  depthM: 2.41,
  musselsPerM2: { estimate: 6.12, lower: 3.38, upper: 10.94 },
  why: null,
};

describe('a spot with an estimate', () => {
  it('names bed, depth and plants, and the density with its interval', () => {
    expect(spotWords(SPOT, 'metric')).toEqual({
      bed: 'Rock · 2.4 m · plants 1',
      density: '6.1 per m²',
      interval: '3.4 to 10.9',
      why: null,
    });
  });

  it('gives the depth in feet when asked', () => {
    expect(spotWords(SPOT, 'us').bed).toBe('Rock · 8 ft · plants 1');
  });

  it('is one line to be read out', () => {
    expect(spotSentence(SPOT, 'metric')).toBe(
      'Rock, 2.4 m, plants 1. 6.1 mussels per m², interval 3.4 to 10.9.',
    );
  });

  it('has no interval where there is none', () => {
    const bare = { ...SPOT, musselsPerM2: { estimate: 0, lower: null, upper: null } };
    expect(spotWords(bare, 'metric')).toMatchObject({ density: '0 per m²', interval: null });
  });
});

describe('a spot without an estimate', () => {
  it.each([
    ['off the lake', 'Off the lake.'],
    ['not mapped', 'No substrate is mapped here, so the number leaves it out.'],
    ['substrate', 'Mapped, not searched: no rope crossed this substrate.'],
    ['depth', 'Mapped, not searched: shallower or deeper than the ropes reached.'],
    ['some new reason', 'Some new reason.'],
  ])('%s', (why, words) => {
    const spot: SpotView = { ...SPOT, musselsPerM2: null, why };
    expect(spotWords(spot, 'metric')).toMatchObject({ density: null, interval: null, why: words });
  });

  it('shows no number outside of the surveyed bed, even if the grid holds one there', () => {
    expect(spotWords({ ...SPOT, why: 'depth' }, 'metric').density).toBeNull();
  });

  it('never says that there are none', () => {
    for (const why of ['substrate', 'depth', 'not mapped', 'plant cover', 'depth unmapped'])
      expect(spotSentence({ ...SPOT, why }, 'metric')).not.toMatch(/\b(free|clean|absent|none)\b/i);
  });
});
