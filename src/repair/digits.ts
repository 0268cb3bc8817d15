/** What a number may have been before a slip of the finger. */

export interface OtherReading {
  text: string;
  value: number;
  /** what would have happened, in words */
  slip: string;
}

/** A decimal point lost, gained or moved, two neighbouring digits exchanged; the likeliest first, none twice. */
export function otherReadings(text: string): OtherReading[] {
  const found = new Map<string, OtherReading>();
  const add = (other: string, slip: string): void => {
    const value = Number(other);
    if (
      other !== text &&
      /^\d+(\.\d+)?$/.test(other) &&
      Number.isFinite(value) &&
      !found.has(other)
    )
      found.set(other, { text: other, value, slip });
  };
  const digits = text.replace('.', '');
  if (!/^\d+(\.\d+)?$/.test(text)) return [];
  for (let at = digits.length - 1; at > 0; at--) {
    // 05.3 is not how a number is written, 0.53 is
    if (digits.startsWith('0') && at > 1) continue;
    const slip = text.includes('.') ? 'a decimal point moved' : 'a decimal point lost';
    add(`${digits.slice(0, at)}.${digits.slice(at)}`, slip);
  }
  if (text.includes('.') && !digits.startsWith('0')) add(digits, 'a decimal point too many');
  add(`${text}0`.includes('.') ? text : `${text}0`, 'a 0 lost');
  for (let i = 0; i + 1 < text.length; i++) {
    const [a, b] = [text[i]!, text[i + 1]!];
    if (a === '.' || b === '.') continue;
    add(text.slice(0, i) + b + a + text.slice(i + 2), 'two digits exchanged');
  }
  return [...found.values()];
}
