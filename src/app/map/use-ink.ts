/** The page's colours for the map's canvas; follows the theme. */

import { useEffect, useState } from 'react';
import { type Ink, inkOf } from './ink.ts';

export function useInk(): Ink {
  const [ink, setInk] = useState(() => inkOf(document.documentElement));
  useEffect(() => {
    const read = (): void =>
      setInk((shown) => {
        const now = inkOf(document.documentElement);
        return JSON.stringify(now) === JSON.stringify(shown) ? shown : now;
      });
    const watch = new MutationObserver(read);
    watch.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
    read();
    return () => watch.disconnect();
  }, []);
  return ink;
}
