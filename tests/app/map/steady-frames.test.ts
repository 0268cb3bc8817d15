/** A map that is drawn in software stays in step with the hand, and is sharp when it rests. */

import { describe, expect, it } from 'vitest';
import { MOVING_SHARE, steadyFrames } from '../../../src/app/map/steady-frames.ts';

const SCREEN = 2;
const COARSE = SCREEN * MOVING_SHARE;

/** A map on a machine that takes so many milliseconds for a sharp frame, in proportion for a coarse one. */
function mapOn(sharpMs: number) {
  const listeners: Record<string, () => void> = {};
  const said: string[] = [];
  const after: (() => void)[] = [];
  let ratio = COARSE;
  let time = 0;
  steadyFrames(
    {
      on: (event, told) => {
        listeners[event] = told;
      },
      setPixelRatio: (wanted) => {
        ratio = wanted;
      },
      triggerRepaint: () => said.push('again'),
    },
    { rested: () => said.push('rested'), busy: () => said.push('busy') },
    { now: () => time, sharpRatio: () => SCREEN, afterFrame: (done) => after.push(done) },
  );
  return {
    said,
    ratio: () => ratio,
    /** Draws one frame; the last one of a movement is followed by rest. */
    frame(last = false) {
      listeners.render!();
      if (last) listeners.idle!();
      time += sharpMs * (ratio / SCREEN) ** 2;
      for (const done of after.splice(0)) done();
    },
  };
}

describe('a slow machine', () => {
  it('draws coarsely while it moves, and rests only after a sharp frame', () => {
    const map = mapOn(200);
    map.frame();
    map.frame();
    map.frame(true);
    expect(map.ratio()).toBe(SCREEN);
    expect(map.said).not.toContain('rested');
    map.frame(true);
    expect(map.said.at(-1)).toBe('rested');
    map.frame();
    expect(map.ratio()).toBe(COARSE);
    map.frame();
    map.frame(true);
    expect(map.ratio()).toBe(SCREEN);
    map.frame(true);
    expect(map.said.at(-1)).toBe('rested');
  });

  it('draws a lone frame sharply', () => {
    const map = mapOn(200);
    map.frame(true);
    map.frame(true);
    map.frame(true);
    expect(map.ratio()).toBe(SCREEN);
    map.frame(true);
    expect(map.ratio()).toBe(SCREEN);
  });

  it('that moves on before it could be sharp stays coarse', () => {
    const map = mapOn(200);
    map.frame();
    map.frame();
    expect(map.ratio()).toBe(COARSE);
  });
});

it('a fast machine is sharp from its first rest on', () => {
  const map = mapOn(8);
  map.frame();
  map.frame(true);
  for (let i = 0; i < 20; i++) {
    map.frame();
    expect(map.ratio()).toBe(SCREEN);
  }
});
