/**
 * Where graphics are drawn in software, a whole frame takes long enough to hold the page up. There the map is drawn with fewer
 * pixels for as long as it moves or fills, and sharp again as soon as it rests.
 */

import { nextTask } from './next-task.ts';

/** What of a map is needed here. */
export interface Frames {
  on(event: 'render' | 'idle' | 'remove', told: () => void): unknown;
  /** clears what is on the screen until the next frame */
  setPixelRatio(ratio: number): void;
  triggerRepaint(): void;
}

/** What the machine is asked; a test has its own. */
export interface Clock {
  /** milliseconds */
  now(): number;
  /** calls back when the frame that is under way has been drawn */
  afterFrame(done: () => void): void;
  /** pixels of the screen for one of the page */
  sharpRatio(): number;
}

/** A frame that takes longer is seen as a jerk. */
const SLOW_MS = 45;
/** A sharp frame within this is not slow any more. */
const FAST_MS = 25;
/** One slow frame may be chance. */
const SLOW_FRAMES = 2;
/** Of the screen's pixels along each side, while the map moves; a map begins with it. */
export const MOVING_SHARE = 0.55;

/**
 * Watches the frames of `map`, which was made with MOVING_SHARE of the screen's pixels; `rested` is told when everything is
 * drawn, and sharply, `busy` at every frame before that.
 */
export function steadyFrames(
  map: Frames,
  { rested, busy }: { rested(): void; busy(): void },
  clock: Clock = machineClock,
): void {
  let slowFrames = 0;
  let coarse = true;
  let resting = false;
  let gone = false;
  map.on('remove', () => {
    gone = true;
  });

  map.on('render', () => {
    busy();
    resting = false;
    const start = clock.now();
    clock.afterFrame(() => {
      const ms = clock.now() - start;
      if (ms > SLOW_MS) slowFrames++;
      else if (ms < FAST_MS && !coarse) slowFrames = 0;
      // a lone frame is sharp at once; what goes on after a frame is a movement
      if (!resting && !coarse && slowFrames >= SLOW_FRAMES) draw(true);
    });
  });

  map.on('idle', () => {
    resting = true;
    if (!coarse) rested();
    else
      clock.afterFrame(() => {
        if (resting) draw(false);
      });
  });

  /** Between frames: within one, the picture that was just drawn would be lost. */
  function draw(coarsely: boolean): void {
    if (gone) return;
    coarse = coarsely;
    map.setPixelRatio(clock.sharpRatio() * (coarsely ? MOVING_SHARE : 1));
    map.triggerRepaint();
  }
}

const machineClock: Clock = {
  now: () => performance.now(),
  sharpRatio: () => devicePixelRatio,
  // a frame is drawn within one task
  afterFrame: (done) => void nextTask().then(done),
};
