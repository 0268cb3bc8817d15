/** Authors as the user writes them: `Family, Given` is a person; what has no comma is taken as it is. */

export type Author = { family: string; given: string } | { name: string };

export function authorOf(text: string): Author {
  const [family, given, ...more] = text.split(',').map((part) => part.trim());
  if (family === '' || given === undefined || given === '' || more.length > 0)
    return { name: text };
  return { family, given };
}
