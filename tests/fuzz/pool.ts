/** Processes that run cases, each watched: one that takes too long or too much memory is ended and replaced. */

import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Case } from './cases.ts';
import type { Outcome } from './judge.ts';

export interface Asked {
  id: number;
  asked: Case;
}

export interface Answer extends Outcome {
  id: number;
  /** processor time, so that a busy machine makes no case slower */
  ms: number;
}

/** Processor time a case may take, and time by the clock where a process sleeps or the system does not tell. */
export const LIMIT_S = 10;
const CLOCK_LIMIT_S = 120;
/** Memory of a process, in bytes: what a survey page of a browser may take. */
const LIMIT_BYTES = 1.5e9;
const HEAP_MB = 1024;
const WATCHED_MS = 200;
/** Clock ticks of /proc a second, on every Linux. */
const TICKS = 100;
const PAGE_BYTES = 4096;

export class Pool {
  private readonly idle: Worker[] = [];
  private readonly waiting: ((worker: Worker) => void)[] = [];
  private readonly all: Worker[] = [];

  /** `program` is the bundled child.ts, `root` the repository's folder. */
  constructor(program: string, root: string, workers: number, limitS = LIMIT_S) {
    for (let k = 0; k < workers; k++) {
      const worker = new Worker(program, root, limitS);
      this.all.push(worker);
      this.idle.push(worker);
    }
  }

  async run(asked: Case): Promise<Answer> {
    const worker =
      this.idle.pop() ?? (await new Promise<Worker>((take) => this.waiting.push(take)));
    try {
      return await worker.run(asked);
    } finally {
      const next = this.waiting.shift();
      if (next === undefined) this.idle.push(worker);
      else next(worker);
    }
  }

  end(): void {
    for (const worker of this.all) worker.end();
  }
}

class Worker {
  private child: ChildProcess | null = null;
  private count = 0;
  private readonly program: string;
  private readonly root: string;
  private readonly limitS: number;

  constructor(program: string, root: string, limitS: number) {
    this.program = program;
    this.root = root;
    this.limitS = limitS;
  }

  run(asked: Case): Promise<Answer> {
    const child = this.child ?? this.start();
    const id = ++this.count;
    const cpuBefore = usage(child)?.cpuS ?? 0;
    const begun = Date.now();
    return new Promise((resolve) => {
      const finish = (answer: Answer): void => {
        clearInterval(watch);
        child.removeListener('message', told);
        child.removeListener('exit', died);
        resolve(answer);
      };
      const failed = (problem: string): void => {
        this.end();
        finish({ id, code: 1, problem, ms: 1000 * ((usage(child)?.cpuS ?? 0) - cpuBefore) });
      };
      const told = (answer: Answer): void => {
        if (answer.id === id) finish(answer);
      };
      const died = (code: number | null, signal: string | null): void => {
        this.child = null;
        failed(`died: ${signal ?? `exit ${code}`}${lastWords(child)}`);
      };
      const watch = setInterval(() => {
        const now = usage(child);
        if (now !== null && now.cpuS - cpuBefore > this.limitS)
          failed(`time: above ${this.limitS} s`);
        else if (Date.now() - begun > 1000 * CLOCK_LIMIT_S)
          failed(`time: above ${CLOCK_LIMIT_S} s by the clock`);
        else if (now !== null && now.bytes > LIMIT_BYTES)
          failed(`memory: above ${LIMIT_BYTES / 1e9} GB`);
      }, WATCHED_MS);
      child.on('message', told);
      child.on('exit', died);
      child.send({ id, asked } satisfies Asked);
    });
  }

  end(): void {
    this.child?.removeAllListeners();
    this.child?.kill('SIGKILL');
    this.child = null;
  }

  private start(): ChildProcess {
    const child = fork(this.program, [this.root], {
      execArgv: [`--max-old-space-size=${HEAP_MB}`],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    words.set(child, '');
    child.stderr?.on('data', (text: Buffer) =>
      words.set(child, `${words.get(child)}${text}`.slice(-2000)),
    );
    this.child = child;
    return child;
  }
}

/** What each process wrote to standard error last. */
const words = new WeakMap<ChildProcess, string>();

function lastWords(child: ChildProcess): string {
  const line = words
    .get(child)
    ?.split('\n')
    .find((text) => /error/i.test(text));
  return line === undefined ? '' : ` (${line.trim().slice(0, 200)})`;
}

/** Processor time and memory of a process; null where the system has no /proc. */
function usage({ pid }: ChildProcess): { cpuS: number; bytes: number } | null {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
    return {
      cpuS: (Number(fields[11]) + Number(fields[12])) / TICKS,
      bytes: Number(fields[21]) * PAGE_BYTES,
    };
  } catch {
    return null;
  }
}
