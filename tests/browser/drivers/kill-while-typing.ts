/** The browser is killed at a random moment while somebody taps and types into the Field log; what it kept is compared with what was done. */

import type { Page } from 'playwright-core';
import { type Look, openBrowser, type TestBrowser } from './chromium.ts';
import { LogPage } from './log-page.ts';

/** What the survey holds after one tap or keystroke. */
interface State {
  /** rows of detections.csv */
  rows: string[];
  notes: string;
  foundM: string;
}

export interface Killed {
  /** taps and keystrokes before the kill */
  done: number;
  /** of these, how many were lost, the latest ones */
  lost: number;
  /** age of the oldest one that was lost when the browser was killed, ms; 0 when none was */
  oldestLostMs: number;
  /** what was found is not the state after any of them */
  corrupt: boolean;
}

const PHONE: Look = { width: 360, height: 740, scale: 0.5 };
const LEAST_MS = 300;
const MOST_MS = 2_600;

/**
 * Kills the browser so many times, whose log is open at a transect with one observer called Ann,
 * while detections are tapped and notes are typed; each time it is opened again with what it kept.
 */
export async function killWhileTyping(
  address: string,
  opened: TestBrowser,
  times: number,
  random: () => number,
): Promise<Killed[]> {
  const kills: Killed[] = [];
  const { profile } = opened;
  let browser = opened;
  let now = await stateOf(browser.page);
  for (let i = 0; i < times; i++) {
    const states: Told[] = [{ at: 0, state: now }];
    const typing = type(new LogPage(browser.page), states, random).catch(() => {}); // ends with the browser
    await new Promise((done) => setTimeout(done, LEAST_MS + random() * (MOST_MS - LEAST_MS)));
    const killedAt = Date.now();
    const before = states.length;
    await browser.kill();
    await typing;
    browser = await openBrowser(PHONE, profile);
    now = await openLog(address, browser);
    kills.push(compared(states, before, killedAt, now));
  }
  await browser.context.close(); // the profile stays
  return kills;
}

/** What the survey held after each tap and keystroke, and when. */
interface Told {
  at: number;
  state: State;
}

/** @param before so many of the states were there when the browser was killed; what came after may be there as well */
function compared(states: readonly Told[], before: number, killedAt: number, found: State): Killed {
  const done = states.slice(0, before);
  const same = states.findLastIndex(({ state }) => isSame(state, found));
  // a tap that was under way has not been told
  const last = same < 0 && isStep(states.at(-1)!.state, found) ? states.length - 1 : same;
  const lost = done.slice(last + 1);
  return {
    done: done.length - 1,
    lost: lost.length,
    oldestLostMs: lost.length === 0 ? 0 : killedAt - lost[0].at,
    corrupt: last < 0,
  };
}

async function openLog(address: string, { page }: TestBrowser): Promise<State> {
  await page.goto(`${address}#log`);
  await page.waitForSelector('.log-tabs');
  return stateOf(page);
}

/** Without an end: taps of a detection, then a few letters of a note, and so on. */
async function type(log: LogPage, states: Told[], random: () => number): Promise<void> {
  let now = states[0].state;
  const note = (change: Partial<State>): void => {
    now = { ...now, ...change };
    states.push({ at: Date.now(), state: now });
  };
  for (;;) {
    await log.tab('Detections');
    for (let i = 0; i < 3; i++) {
      const metre = Math.floor(random() * 31);
      await log.choose('Metre of the transect', String(metre));
      note({ foundM: String(metre) });
      const count = 1 + Math.floor(random() * 4);
      await log.choose('Add, found by Ann', String(count));
      note({ rows: [...now.rows, `T1,primary,${metre},,${count},,`] });
    }
    await log.tab('Transect');
    const notes = log.page.getByLabel('Notes', { exact: true });
    await notes.focus();
    await log.page.keyboard.press('Control+End');
    for (let i = 0; i < 12; i++) {
      const letter = String.fromCharCode(97 + Math.floor(random() * 26));
      await log.page.keyboard.type(letter);
      note({ notes: now.notes + letter });
    }
  }
}

/** As it stands in the browser's store, read without the application. */
async function stateOf(page: Page): Promise<State> {
  const { files, foundM } = await page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>): Promise<T> =>
      new Promise((done, fail) => {
        request.onsuccess = () => done(request.result);
        request.onerror = () => fail(request.error);
      });
    const db = await asked(indexedDB.open('shoalwise'));
    const tx = db.transaction(['works', 'files']);
    const [work] = await asked(tx.objectStore('works').getAll());
    const read = async (name: string): Promise<string> =>
      new TextDecoder().decode(await asked(tx.objectStore('files').get([work.id, name])));
    const files = {
      transects: await read('transects.csv'),
      detections: await read('detections.csv'),
    };
    db.close();
    return { files, foundM: work.draft?.foundM ?? '0' };
  });
  const [, ...rows] = files.detections.trim().split('\n');
  // the last column of the one transect's row
  const notes = files.transects.trim().split('\n').at(-1)!.split(',').at(-1)!;
  return { rows, notes, foundM };
}

function isSame(a: State, b: State): boolean {
  return a.notes === b.notes && a.foundM === b.foundM && a.rows.join('\n') === b.rows.join('\n');
}

/** One tap or letter more than before. */
function isStep(before: State, after: State): boolean {
  const rows = after.rows.length - before.rows.length;
  const letters = after.notes.length - before.notes.length;
  const metre = after.foundM === before.foundM ? 0 : 1;
  return (
    after.rows.join('\n').startsWith(before.rows.join('\n')) &&
    after.notes.startsWith(before.notes) &&
    rows + letters + metre === 1
  );
}
