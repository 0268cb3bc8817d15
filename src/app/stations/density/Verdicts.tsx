/** The checks on the model, each with its verdict by shape and word and its one sentence, and the picture behind it. */

import type { ReactNode } from 'react';
import { capital } from '../../../../shared/glossary.ts';
import type { CheckName, CheckWords, Verdict } from '../../../present/checks.ts';
import { HEADINGS } from '../../../present/headings.ts';

/** Drawn 12 by 12: full, half, hollow with a stroke through it, and hollow where nothing was tested. */
function Sign({ verdict }: { verdict: Verdict }) {
  return (
    <svg
      width="14"
      height="14"
      viewBox="-7 -7 14 14"
      aria-hidden="true"
      className={`sign ${verdict}`}
    >
      {verdict === 'saturated' && <circle r="5.5" className="sign-line" />}
      {verdict === 'holds' && <circle r="5.5" className="sign-full" />}
      {verdict === 'doubtful' && (
        <>
          <path d="M0,-5.5a5.5,5.5 0 0,1 0,11z" className="sign-full" />
          <circle r="5.5" className="sign-line" />
        </>
      )}
      {verdict === 'fails' && (
        <>
          <circle r="5.5" className="sign-line" />
          <path d="M-3.9,3.9L3.9,-3.9" className="sign-line" />
        </>
      )}
    </svg>
  );
}

export function Verdicts({
  checks,
  picture,
}: {
  /** the gravest first */
  checks: readonly CheckWords[];
  /** what proves a check, by its name; null = nothing to show */
  picture(name: CheckName): ReactNode;
}) {
  return (
    <section className="verdicts" aria-labelledby="verdicts-title">
      <h2 id="verdicts-title">{HEADINGS.checks}</h2>
      <ul className="plain-list">
        {checks.map((check) => {
          const proof = picture(check.name);
          return (
            <li key={check.name}>
              <div className="verdict-title">
                <Sign verdict={check.verdict} />
                <b>{check.title}</b>{' '}
                <span className={`verdict-word ${check.verdict}`}>{check.verdict}</span>
              </div>
              {check.gloss !== null && <p className="small quiet">{capital(check.gloss)}</p>}
              <p>{check.sentence}</p>
              {proof !== null && (
                <details>
                  <summary>
                    See it<span className="visually-hidden">: {check.title}</span>
                  </summary>
                  {proof}
                </details>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
