/** What can stop a fit, one class a cause. The message is for a log; people read a sentence made from the reason. */

import type { NotEstimableReason } from '../shared/model-notices.ts';

/** The survey cannot give what was asked for. */
export class NotEstimable<R extends NotEstimableReason = NotEstimableReason> extends Error {
  readonly reason: R;
  constructor(reason: R) {
    super(JSON.stringify(reason));
    this.name = new.target.name;
    this.reason = reason;
  }
}

/** The detections of a design do not hold its detection probability, and so no density. */
export class DensityNotIdentified extends NotEstimable<
  Extract<NotEstimableReason, { code: 'density-not-identified' }>
> {}

/** No maximum of the likelihood was reached. */
export class NotConverged extends NotEstimable<
  Extract<NotEstimableReason, { code: 'not-converged' }>
> {}

/** A search was begun where the function, its gradient or its Hessian is not finite. */
export class StartNotFinite extends RangeError {
  readonly start: number[];
  constructor(message: string, start: Float64Array) {
    super(message);
    this.name = 'StartNotFinite';
    this.start = [...start];
  }
}
