/** What the files themselves have wrong or remarkable, each with its file, row and column. */

import { type Finding, findingPlace } from '../../../../shared/findings.ts';
import { visible } from '../../../../shared/words.ts';
import { kindsOf } from '../../../present/notices.ts';

export function ImportFindings({ findings }: { findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <ul className="plain-list findings">
      {kindsOf(findings).map(({ indices, severity, more }) => {
        const [first] = indices.map((i) => findings[i]);
        return (
          <li key={indices[0]} className={`finding ${severity}`}>
            <b>{visible(findingPlace(first))}:</b> {visible(first.message)}
            {more !== null && <span className="small quiet"> {more}</span>}
          </li>
        );
      })}
    </ul>
  );
}
