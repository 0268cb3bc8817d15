/** Before a survey is open: what this does, and the ways to begin. */

import { useRef } from 'react';
import { VERSION } from '../../../shared/version.ts';
import type { RecentWork } from '../contract.ts';
import { useApp } from '../state/app-context.tsx';
import { isOneFile } from '../storage/one-file.ts';
import { BringInButton } from './BringInButton.tsx';
import { FileField, SURVEY_KINDS } from './FileField.tsx';
import { NewSurvey } from './NewSurvey.tsx';
import { Lead, Sentence } from './ui.tsx';

export function Landing() {
  const { state, actions } = useApp();
  const folder = useRef<HTMLInputElement>(null);
  const files = useRef<HTMLInputElement>(null);
  if (state.opening)
    return (
      <div className="station">
        <Sentence>Opening the survey …</Sentence>
      </div>
    );
  return (
    <div className="station landing">
      <Sentence>
        From the dive sheets of a mussel survey to <b>how many there are</b>, where, and{' '}
        <b>how sure</b> that is.
      </Sentence>
      <Lead>
        Open the folder with your transects, habitat and detections, and the maps of the lake. What
        is wrong in them is shown in the cell; what can be said of the lake is shown on its map.
      </Lead>
      <div className="landing-ways">
        <button type="button" className="button primary" onClick={() => folder.current?.click()}>
          Open a survey folder
        </button>
        <button type="button" className="button" onClick={() => files.current?.click()}>
          Open a zip or several files
        </button>
        <BringInButton className="button">Bring in files: spreadsheets, maps, GPS</BringInButton>
        <NewSurvey />
        <button type="button" className="button" onClick={actions.openDemo}>
          Try Hollowreed Lake, an invented lake
        </button>
        <p className="small quiet">
          Or drop a folder, a zip or files of any kind anywhere on this page.
        </p>
        <FileField field={folder} label="Survey folder" folder onChosen={actions.openChosen} />
        <FileField
          field={files}
          label="Survey zip or files"
          kinds={SURVEY_KINDS}
          onChosen={actions.openChosen}
        />
      </div>
      {state.recent.length > 0 && (
        <section className="recent" aria-labelledby="recent-title">
          <h2 id="recent-title">Kept in this browser</h2>
          <ul className="plain-list">
            {state.recent.map((work) => (
              <RecentItem key={work.id} work={work} />
            ))}
          </ul>
        </section>
      )}
      {isOneFile() ? (
        <p className="small quiet">
          Nothing leaves this computer, and no network is needed. What you open and change is kept
          in this browser, not in this file: every copy of the file on this computer finds it, and
          other pages opened from a disk could read it. Save the survey as a zip when you stop, to
          take it along or pass it on. This is Shoalwise {VERSION}.
        </p>
      ) : (
        <p className="small quiet">
          Nothing leaves this computer. The page works without a network once it has been opened.
        </p>
      )}
    </div>
  );
}

function RecentItem({ work }: { work: RecentWork }) {
  const { actions } = useApp();
  const changes =
    work.edits === 0 ? '' : work.edits === 1 ? ', 1 change' : `, ${work.edits} changes`;
  return (
    <li className="recent-item">
      <button type="button" className="link" onClick={() => actions.openRecent(work.id)}>
        {work.name}
      </button>
      <button
        type="button"
        className="link small"
        aria-label={`Field log of ${work.name}`}
        onClick={() => {
          actions.openLog();
          actions.openRecent(work.id);
        }}
      >
        Field log
      </button>
      <span className="small quiet">
        {new Date(work.at).toLocaleString()}
        {changes}
        {work.headline === null ? '' : `; ${work.headline}`}
      </span>
      <button
        type="button"
        className="link small"
        aria-label={`Forget ${work.name}`}
        onClick={() => actions.forgetRecent(work.id)}
      >
        Forget
      </button>
    </li>
  );
}
