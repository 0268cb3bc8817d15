/** How a crew writes its divers: in full, by the first name, by initials, two in one cell. */

const BETWEEN = /\s*(?:[/,;&+]|\s[-–]\s|\b(?:and|y|et|und)\b)\s*/i;

/** `Ines / Tomas`. */
export function isPair(text: string): boolean {
  return peopleIn(text).length >= 2;
}

export function peopleIn(text: string): string[] {
  return text.split(BETWEEN).filter((part) => part !== '');
}

/** `Ines Alvarez` → ines alvarez, ines, ia; lower case. */
export function namesFor(name: string): string[] {
  const full = name.trim().toLowerCase();
  const words = full.split(/[\s.]+/).filter((word) => word !== '');
  if (words.length < 2) return full === '' ? [] : [full];
  return [full, words[0], words.map(([letter]) => letter).join('')];
}

/** Which of two is meant; null where neither is, or both may be. */
export function whichOf(
  text: string,
  { primary, secondary }: { primary: string; secondary: string },
): 'primary' | 'secondary' | null {
  const name = text
    .trim()
    .toLowerCase()
    .replace(/\.(?=.|$)/g, '');
  const whole = text.trim().toLowerCase();
  if (primary.trim().toLowerCase() === whole) return 'primary';
  if (secondary.trim().toLowerCase() === whole) return 'secondary';
  const [first, second] = [primary, secondary].map((one) => {
    const names = namesFor(one);
    return names.includes(name) || namesFor(text).includes(names[0]);
  });
  if (first === second) return null;
  return first ? 'primary' : 'secondary';
}
