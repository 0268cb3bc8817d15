/** The words of the report's first page in English. */

export const en = {
  heading: 'Mussels on the lake bed',
} as const;
