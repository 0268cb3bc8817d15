/** JSON would turn NaN and infinity into null in silence: here they are our own fault, and told. */

/** @throws Error on a figure that is not finite, with the name it stands under */
export function finiteJson(value: object): string {
  const text = JSON.stringify(
    value,
    (key, one: unknown) => {
      if (typeof one === 'number' && !Number.isFinite(one))
        throw new Error(`got ${one} for "${key}" in the result, expected a finite number or null`);
      return one;
    },
    2,
  );
  return `${text}\n`;
}
