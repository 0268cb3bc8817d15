/** What held up the page's main thread, from the browser's own trace: time on the clock, and time that its own work took. */

import type { CDPSession } from 'playwright-core';

/** A task of the main thread. The clock runs on while it waits for graphics or for a processor; `workMs` does not. */
export interface Task {
  clockMs: number;
  workMs: number;
}

export interface HeldUp {
  tasks: number;
  /** the longest by the clock and by work, not always the same one */
  longestClockMs: number;
  longestWorkMs: number;
  /** above 100 ms by the clock and by work */
  longByClock: number;
  longByWork: number;
}

/** Long enough to be felt. */
const LONG_MS = 100;
/** Shorter ones are not looked at. */
const SEEN_MS = 20;

interface TraceEvent {
  name: string;
  ph: string;
  pid: number;
  tid: number;
  ts: number;
  /** microseconds */
  dur?: number;
  tdur?: number;
  args: { name?: string };
}

/** The tasks of the page's main thread while `work` is done. */
export async function tasksDuring(session: CDPSession, work: () => Promise<void>): Promise<Task[]> {
  const stop = await watchTasks(session);
  try {
    await work();
  } catch (error) {
    await stop();
    throw error;
  }
  return stop();
}

/** Watches the main thread until what it returns is called. */
export async function watchTasks(session: CDPSession): Promise<() => Promise<Task[]>> {
  const events: TraceEvent[] = [];
  const collect = (part: { value: unknown[] }) => events.push(...(part.value as TraceEvent[]));
  session.on('Tracing.dataCollected', collect);
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', '__metadata'] },
  });
  return async () => {
    const complete = new Promise((done) => session.once('Tracing.tracingComplete', done));
    await session.send('Tracing.end');
    await complete;
    session.off('Tracing.dataCollected', collect);
    return mainTasks(events);
  };
}

export function heldUp(tasks: readonly Task[]): HeldUp {
  const longest = (of: (task: Task) => number) => Math.max(0, ...tasks.map(of));
  return {
    tasks: tasks.length,
    longestClockMs: longest((t) => t.clockMs),
    longestWorkMs: longest((t) => t.workMs),
    longByClock: tasks.filter((t) => t.clockMs > LONG_MS).length,
    longByWork: tasks.filter((t) => t.workMs > LONG_MS).length,
  };
}

export function heldUpWords(h: HeldUp): string {
  return `longest task ${h.longestWorkMs.toFixed(0)} ms of work, ${h.longByWork} above 100 (with waiting for graphics ${h.longestClockMs.toFixed(0)} ms, ${h.longByClock} above 100)`;
}

/** The outermost tasks: what is nested in another is part of it. */
function mainTasks(events: readonly TraceEvent[]): Task[] {
  const thread = (e: TraceEvent) => `${e.pid}:${e.tid}`;
  const main = new Set(
    events
      .filter((e) => e.name === 'thread_name' && e.args.name === 'CrRendererMain')
      .map((e) => thread(e)),
  );
  const endOf = new Map<string, number>();
  return events
    .filter((e) => e.ph === 'X' && main.has(thread(e)) && e.name.endsWith('RunTask'))
    .sort((a, b) => a.ts - b.ts || b.dur! - a.dur!)
    .filter((e) => {
      if (e.ts < (endOf.get(thread(e)) ?? 0)) return false;
      endOf.set(thread(e), e.ts + e.dur!);
      return e.dur! > SEEN_MS * 1000;
    })
    .map((e) => ({ clockMs: e.dur! / 1000, workMs: (e.tdur ?? e.dur!) / 1000 }));
}
