/**
 * What a table of strings holds. Each entry is a whole sentence, label or heading with placeholders in braces, so that a
 * language can order its words as it likes; nothing is put together from pieces.
 */

/** By the plural category that Intl.PluralRules gives for `{count}`; `other` stands in for those that are left out. */
export type Plural = Readonly<Partial<Record<Intl.LDMLPluralRule, string>> & { other: string }>;
export type Table = Readonly<Record<string, string | Plural>>;

/** The same keys as the English table, a plural where that has one: what is missing does not compile. */
export type Translation<T extends Table> = {
  readonly [K in keyof T]: T[K] extends string ? string : Plural;
};

type NamesIn<S> = S extends `${string}{${infer Name}}${infer Rest}` ? Name | NamesIn<Rest> : never;
type Names<E> = E extends string ? NamesIn<E> : 'count' | NamesIn<E[keyof E]>;
type Values<E> = {
  [N in Names<E>]: N extends 'count' ? number : string | number;
};
/** One record of all placeholders of an entry; nothing where it has none. */
export type Filling<E> = [Names<E>] extends [never] ? [] : [values: Values<E>];

/** The names of the placeholders of a text, in order. */
export function placeholders(text: string): string[] {
  return [...text.matchAll(/\{([^{}]*)\}/g)].map((m) => m[1] ?? '');
}

/** @throws when a placeholder has no value, or a value no placeholder */
export function filled(text: string, values: Readonly<Record<string, string>>): string {
  const names = placeholders(text);
  const known = Object.keys(values);
  const missing = names.find((name) => !known.includes(name));
  if (missing !== undefined)
    throw new Error(`got no value for {${missing}} of "${text}", expected one`);
  return text.replace(/\{([^{}]*)\}/g, (_, name: string) => values[name] ?? '');
}
