/** How wide a drawing may be: the column's width, followed as it changes. Apart from the plots, which carry a library. */

import { type RefObject, useEffect, useState } from 'react';

/** Width of an element in whole pixels, followed as it changes; 0 before it is laid out. */
export function useWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const node = element.current;
    if (node === null) return;
    const observer = new ResizeObserver(() => setWidth(Math.floor(node.clientWidth)));
    observer.observe(node);
    setWidth(Math.floor(node.clientWidth));
    return () => observer.disconnect();
  }, [element]);
  return width;
}
