/** What stands on paper alone: which lake and station and when it was printed, and below everything the credit line. */

import { useEffect, useState } from 'react';
import { creditLine } from '../../present/credit.ts';
import { useApp } from '../state/app-context.tsx';
import { STATION_NAMES } from './words.ts';

export function PrintHead() {
  const { state } = useApp();
  const printed = usePrintDay();
  if (state.judged === null) return null;
  return (
    <header className="print-head">
      <span className="print-title">{state.judged.analysis.lake}</span>
      <span>{STATION_NAMES[state.station]}</span>
      <span>Printed {printed}</span>
    </header>
  );
}

export function PrintFoot() {
  const { judged } = useApp().state;
  return judged && <footer className="print-foot">{creditLine(judged)}</footer>;
}

/** The day of the last print, YYYY-MM-DD by the reader's clock. */
function usePrintDay(): string {
  const [day, setDay] = useState(today);
  useEffect(() => {
    const follow = (): void => setDay(today());
    addEventListener('beforeprint', follow);
    return () => removeEventListener('beforeprint', follow);
  }, []);
  return day;
}

function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
