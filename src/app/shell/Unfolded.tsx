/** What is folded away, and is made, and loaded where it is loaded by itself, only once somebody unfolds it. */

import { type ReactNode, Suspense, useState } from 'react';

export function Unfolded({
  className,
  summary,
  children,
}: {
  className: string;
  summary: ReactNode;
  children: ReactNode;
}) {
  const [asked, setAsked] = useState(false);
  return (
    <details
      className={className}
      onToggle={({ currentTarget }) => currentTarget.open && setAsked(true)}
    >
      <summary>{summary}</summary>
      {asked && <Suspense fallback={null}>{children}</Suspense>}
    </details>
  );
}
