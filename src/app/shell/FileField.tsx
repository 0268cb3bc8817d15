/** A field for files that is not seen: the button that opens it stands elsewhere. */

import type { RefObject } from 'react';

/** What a survey is made of, and its zip. */
export const SURVEY_KINDS = '.zip,.csv,.json,.geojson,.tif';

export function FileField({
  field,
  label,
  kinds,
  folder = false,
  onChosen,
}: {
  field: RefObject<HTMLInputElement | null>;
  label: string;
  /** endings; any without them */
  kinds?: string;
  /** a folder is chosen, with all that is in it */
  folder?: boolean;
  /** one or more */
  onChosen(files: File[]): void;
}) {
  return (
    <input
      ref={field}
      type="file"
      hidden
      aria-label={label}
      accept={kinds}
      {...(folder ? { webkitdirectory: '' } : { multiple: true })}
      onChange={({ currentTarget }) => {
        const chosen = [...(currentTarget.files ?? [])];
        currentTarget.value = ''; // so that the same can be chosen again
        if (chosen.length > 0) onChosen(chosen);
      }}
    />
  );
}
