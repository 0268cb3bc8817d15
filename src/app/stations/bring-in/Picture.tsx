/** What is drawn beside a question: a small map, a plot of two depths against each other, or a table. */

import { useId } from 'react';
import type { ImportPicture, Option } from '../../../../shared/importing.ts';
import { visible } from '../../../../shared/words.ts';
import { TableScroll } from '../../shell/ui.tsx';
import { PictureMap } from './PictureMap.tsx';
import { PicturePlot } from './PicturePlot.tsx';

export function Picture({
  picture,
  options = [],
}: {
  picture: ImportPicture;
  options?: readonly Option[];
}) {
  switch (picture.kind) {
    case 'map':
      return <PictureMap picture={picture} options={options} />;
    case 'scatter':
      return <PicturePlot picture={picture} />;
    case 'table':
      return <PictureTable picture={picture} />;
  }
}

function PictureTable({
  picture: { caption, header, rows },
}: {
  picture: Extract<ImportPicture, { kind: 'table' }>;
}) {
  const id = useId();
  return (
    <TableScroll labelledBy={id}>
      <table className="data-table preview">
        <caption id={id}>{visible(caption)}</caption>
        <thead>
          <tr>
            {header.map((name, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns do not move, and may have one name
              <th key={i} scope="col">
                {visible(name)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: rows do not move
            <tr key={i}>
              {cells.map((cell, j) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns do not move
                <td key={j}>{visible(cell)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
