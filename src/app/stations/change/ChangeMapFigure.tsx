/** The map of a change: where there are fewer, where more, and where that could not be told. */

import { useEffect, useState } from 'react';
import type { ChangePicture } from '../../../../shared/change.ts';
import { visible } from '../../../../shared/words.ts';

export function ChangeMapFigure({ picture }: { picture: ChangePicture }) {
  const { title, described, note, svg, classes } = picture;
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [svg]);
  return (
    <figure className="change-map">
      {address !== null && <img src={address} alt={visible(described)} />}
      <ul>
        {classes.map(({ words, colour, dotted }) => (
          <li key={words}>
            <svg width="28" height="16" viewBox="0 0 28 16" aria-hidden="true">
              <rect width="28" height="16" fill={colour} />
              {dotted && [4, 10, 16, 22].map((x) => <circle key={x} cx={x + 1} cy="8" r="1.2" />)}
            </svg>
            {words}
          </li>
        ))}
      </ul>
      <figcaption>
        <b>{visible(title)}.</b> {note}
      </figcaption>
    </figure>
  );
}
