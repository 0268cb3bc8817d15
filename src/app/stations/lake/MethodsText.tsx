/** The methods paragraph with its references, to be read and copied. Loaded when it is unfolded. */

import { useMemo, useRef, useState } from 'react';
import type { UnitSystem } from '../../../../shared/units.ts';
import { type MethodsResult, readMethods } from '../../../present/methods-paragraph.ts';

export function MethodsText({ result, units }: { result: MethodsResult; units: UnitSystem }) {
  const { paragraph, references, text } = useMemo(
    () => readMethods(result, units),
    [result, units],
  );
  const box = useRef<HTMLDivElement>(null);
  const [told, setTold] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      setTold('Copied, with the references.');
    } catch {
      // the browser does not allow it: at least it is marked, for the keyboard to copy
      if (box.current !== null) getSelection()?.selectAllChildren(box.current);
      setTold(
        'This browser does not copy by itself: the text is marked, copy it with the keyboard.',
      );
    }
  };
  return (
    <>
      <p className="no-print">
        <button type="button" className="button small" onClick={() => void copy()}>
          Copy the paragraph
        </button>{' '}
        <span role="status" className="small quiet">
          {told}
        </span>
      </p>
      <div ref={box} className="small">
        <p>{paragraph}</p>
        <ul className="quiet">
          {references.map((entry) => (
            <li key={entry}>{entry}</li>
          ))}
        </ul>
      </div>
    </>
  );
}
