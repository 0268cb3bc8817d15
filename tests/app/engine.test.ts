/** The workers behind the page. In their place stand objects that answer through a message channel, as a worker does. */

import * as Comlink from 'comlink';
import { afterEach, describe, expect, it } from 'vitest';
import type { CoreWorker, JudgedView, ResultView, Work } from '../../src/app/contract.ts';
import { type Engine, type RunListener, startEngine } from '../../src/app/state/engine.ts';

interface Standing {
  asked: string[];
  /** surveys whose repairs were asked for by themselves */
  repaired: string[];
  ended: boolean;
  /** judging is held back until released */
  hold: boolean;
  release: () => void;
}

let workers: Standing[] = [];
/** what the page was told, in its order */
let told: string[] = [];
const ports: MessagePort[] = [];
let engine: Engine | null = null;
let grid: Pick<NonNullable<ResultView['grid']>, 'nx' | 'ny'> | null = null;

function spawn(): Worker {
  const { port1, port2 } = new MessageChannel();
  ports.push(port1, port2);
  const standing: Standing = {
    asked: [],
    repaired: [],
    ended: false,
    hold: false,
    release: () => {},
  };
  const core: Pick<CoreWorker, 'judge' | 'estimate' | 'repairs'> = {
    judge: async (_files, name, later) => {
      standing.asked.push(`judge ${name}`);
      if (standing.hold) await new Promise<void>((go) => (standing.release = go));
      const repairs = later ? null : [];
      return { ok: true, fingerprint: name, repairs } as Partial<JudgedView> as JudgedView;
    },
    repairs: async (_files, name) => {
      standing.repaired.push(name);
      return [];
    },
    estimate: async (_files, name) => {
      standing.asked.push(`estimate ${name}`);
      return { ok: true, result: { grid } as Partial<ResultView> as ResultView };
    },
  };
  Comlink.expose(core, port1);
  workers.push(standing);
  return Object.assign(port2, {
    onerror: null,
    terminate() {
      standing.ended = true;
    },
  }) as EventTarget as Worker;
}

const work = (name: string): Work => ({ name, files: new Map(), edits: [] });

/** Runs to the estimate. */
const run = (name: string): Promise<void> =>
  new Promise((done, fail) => {
    const listener: RunListener = {
      progress: () => {},
      judged: () => {},
      faulty: () => fail(new Error('got faults, expected an estimate')),
      estimated: () => {
        told.push(`estimated ${name}`);
        done();
      },
      repaired: (_, fingerprint) => told.push(`repairs of ${fingerprint}`),
      failed: (message) => fail(new Error(message)),
    };
    void engine?.run(work(name), listener);
  });

/** Until messages under way have arrived. */
const settled = async (isSo: () => boolean): Promise<void> => {
  for (let turn = 0; turn < 200 && !isSo(); turn++) await new Promise((go) => setTimeout(go, 1));
};
const quiet = async (): Promise<void> => {
  for (let turn = 0; turn < 20; turn++) await new Promise((go) => setTimeout(go, 1));
};

function begin(): Engine {
  workers = [];
  told = [];
  grid = null;
  engine = startEngine(spawn);
  return engine;
}

afterEach(() => {
  for (const port of ports.splice(0)) port.close();
});

describe('repairs', () => {
  it('wait for the first number, and come with every later judgement', async () => {
    begin();
    await run('first');
    await settled(() => told.length === 2);
    expect(told).toEqual(['estimated first', 'repairs of first']);
    await run('second');
    await quiet();
    expect(told.slice(2)).toEqual(['estimated second']);
    expect(workers.flatMap((w) => w.repaired)).toEqual(['first']);
  });
});

describe('the spare worker', () => {
  it('stands ready after the first number, and has run the same survey once a change is to be expected', async () => {
    const { expectChange } = begin();
    await run('first');
    expect(workers.map((w) => w.asked)).toEqual([['judge first', 'estimate first'], []]);
    expectChange();
    expectChange();
    await settled(() => workers[1]?.asked.length === 2);
    expect(workers[1]?.asked).toEqual(['judge first', 'estimate first']);
    await quiet();
    expectChange();
    await quiet();
    expect(workers[1]?.asked).toHaveLength(2);
  });

  it('makes the next number, while the first keeps what is on the screen', async () => {
    const { expectChange } = begin();
    await run('first');
    expectChange();
    await settled(() => workers[1]?.asked.length === 2);
    await quiet();
    await run('second');
    expect(workers.map((w) => w.ended)).toEqual([false, false]);
    expect(workers[1]?.asked.slice(2)).toEqual(['judge second', 'estimate second']);
  });

  it('keeps no run waiting: one that is still being warmed up is given up for a new one', async () => {
    const { expectChange } = begin();
    await run('first');
    const warming = workers[1];
    if (warming === undefined) throw new Error('expected a spare worker');
    warming.hold = true;
    expectChange();
    await settled(() => warming.asked.length === 1);
    await run('second');
    expect(warming.ended).toBe(true);
    expect(workers[2]?.asked).toEqual(['judge second', 'estimate second']);
    // what the given-up worker answers late is nobody's: it is asked for no estimate
    warming.release();
    await quiet();
    expect(warming.asked).toEqual(['judge first']);
  });

  it('is not warmed up before there is a number, nor where a second result would take too much memory', async () => {
    const { expectChange } = begin();
    expectChange();
    await quiet();
    expect(workers.map((w) => w.asked)).toEqual([[]]);
    grid = { nx: 1000, ny: 501 };
    await run('wide');
    expectChange();
    await quiet();
    expect(workers.map((w) => w.asked)).toEqual([['judge wide', 'estimate wide'], []]);
  });
});
