/**
 * One editor at a time: of several tabs with one survey the first holds a lock of the browser and edits. The others follow
 * what it keeps, and take its place when it closes the survey or when their reader asks for that.
 */

const CHANNEL = 'shoalwise-kept';

export interface EditingListener {
  /** this tab edits from now on; `inherited` when another one did before */
  edits(inherited: boolean): Promise<void>;
  /** another tab edits from now on */
  follows(): void;
  /** the tab that edits has kept a change */
  kept(): void;
}

export interface Editing {
  /** this tab edits from now on, whoever did */
  takeOver(): void;
  /** the survey is closed here */
  leave(): void;
}

/** Tells the other tabs that this one has kept a survey. */
export function tellKept(id: string): void {
  const channel = new BroadcastChannel(CHANNEL);
  channel.postMessage(id);
  channel.close();
}

/** Without locks (an old browser) every tab edits; what a save finds changed by another one is still not overwritten. */
export function shareEditing(id: string, listener: EditingListener): Editing {
  const locks = navigator.locks as LockManager | undefined;
  if (locks === undefined) {
    void listener.edits(false);
    return { takeOver: () => {}, leave: () => {} };
  }
  const name = `shoalwise:${id}`;
  const channel = new BroadcastChannel(CHANNEL);
  let queue: AbortController | null = null;
  let release = (): void => {};
  let left = false;

  const ask = (options: LockOptions, inherited: boolean): void => {
    const hold = async (lock: Lock | null): Promise<void> => {
      if (left) return;
      if (lock === null) return queueUp();
      queue = null;
      await listener.edits(inherited);
      if (left) return;
      await new Promise<void>((done) => {
        release = done;
      });
    };
    locks.request(name, options, hold).catch(() => {
      // given up by ourselves, or taken by another tab
      if (!left && options.signal?.aborted !== true) queueUp();
    });
  };
  const queueUp = (): void => {
    listener.follows();
    queue = new AbortController();
    ask({ signal: queue.signal }, true);
  };

  channel.onmessage = (event: MessageEvent<string>) => {
    if (event.data === id && queue !== null) listener.kept();
  };
  ask({ ifAvailable: true }, false);
  return {
    takeOver() {
      queue?.abort();
      ask({ steal: true }, true);
    },
    leave() {
      left = true;
      queue?.abort();
      release();
      channel.close();
    },
  };
}
