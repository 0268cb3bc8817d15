/** The other surveys: opened from a zip, from tables and maps, or from a folder, and let go again. */

import { useRef } from 'react';
import { term } from '../../../../shared/glossary.ts';
import { visible } from '../../../../shared/words.ts';
import { FileField, SURVEY_KINDS } from '../../shell/FileField.tsx';
import { type ChangeState, change } from '../../state/change-desk.ts';
import { gatherSurvey } from '../../storage/survey-files.ts';

export function Others({ now: { others } }: { now: ChangeState }) {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const choose = async (chosen: File[]): Promise<void> => {
    try {
      change.add(await gatherSurvey(chosen));
    } catch (error) {
      change.refuse((error as Error).message);
    }
  };
  return (
    <section className="others no-print" aria-label="Other surveys">
      {others.length > 0 && (
        <ul className="plain-list">
          {others.map(({ name }) => (
            <li key={name}>
              {visible(name)}
              <button
                type="button"
                className="link small"
                aria-label={`Leave out ${visible(name)}`}
                onClick={() => change.remove(name)}
              >
                Leave out
              </button>
            </li>
          ))}
        </ul>
      )}
      <p className="question-ways">
        <button type="button" className="button" onClick={() => files.current?.click()}>
          Hold against another {term('survey')} …
        </button>
        <button type="button" className="button" onClick={() => folder.current?.click()}>
          … from a folder
        </button>
      </p>
      <p className="small quiet">
        A saved zip, or the files of a {term('survey')}. It is read here and not changed, and stays
        only as long as this page does.
      </p>
      <FileField
        field={files}
        label="Another survey: its zip, or its files"
        kinds={SURVEY_KINDS}
        onChosen={(chosen) => void choose(chosen)}
      />
      <FileField
        field={folder}
        label="Folder of another survey"
        folder
        onChosen={(chosen) => void choose(chosen)}
      />
    </section>
  );
}
