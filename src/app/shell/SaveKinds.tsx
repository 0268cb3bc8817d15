/** A button for each file that can be saved, and what kept one from it. */

import { useState } from 'react';

interface Shown<Kind> {
  /** of the heading's element, unique on the page */
  name: string;
  title: string;
  /** classes of the section, and of the paragraph with the buttons */
  className?: string;
  buttons?: string;
  kinds: readonly Kind[];
  /** throws with a sentence's end when nothing was saved */
  save(kind: Kind): Promise<void>;
}

export function SaveKinds<Kind extends { words: string }>(shown: Shown<Kind>) {
  const { name, title, className, buttons, kinds, save } = shown;
  const [problem, setProblem] = useState<string | null>(null);
  const tried = async (kind: Kind): Promise<void> => {
    try {
      await save(kind);
      setProblem(null);
    } catch (error) {
      setProblem((error as Error).message);
    }
  };
  return (
    <section
      className={className === undefined ? 'no-print' : `${className} no-print`}
      aria-labelledby={name}
    >
      <h2 id={name}>{title}</h2>
      <p className={buttons}>
        {kinds.map((kind) => (
          <button
            key={kind.words}
            type="button"
            className="button small"
            onClick={() => void tried(kind)}
          >
            {kind.words}
          </button>
        ))}
      </p>
      {problem !== null && (
        <p role="alert" className="small save-problem">
          Nothing was saved: {problem}.
        </p>
      )}
    </section>
  );
}
