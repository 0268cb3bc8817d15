/** Files and folders may be dropped anywhere on the page. */

import { useEffect, useState } from 'react';
import { useApp } from '../state/app-context.tsx';
import { droppedFiles } from '../storage/survey-files.ts';

export function DropTarget() {
  const { state, actions } = useApp();
  const [over, setOver] = useState(false);

  useEffect(() => {
    const hasFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const onOver = (event: DragEvent) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      setOver(false);
      void droppedFiles(event.dataTransfer!.items).then((files) => actions.openChosen(files));
    };
    addEventListener('dragover', onOver);
    addEventListener('dragleave', onLeave);
    addEventListener('drop', onDrop);
    return () => {
      removeEventListener('dragover', onOver);
      removeEventListener('dragleave', onLeave);
      removeEventListener('drop', onDrop);
    };
  }, [actions]);

  if (!over) return null;
  return (
    <div className="drop-veil">
      {state.work === null
        ? 'Drop a survey to open it, or sheets, maps and GPS files to bring them in'
        : 'Drop another survey to open it, or files to bring them into this one'}
    </div>
  );
}
