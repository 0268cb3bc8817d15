/** Comparing the files of surveys. */

export function sameFiles(a: Map<string, Uint8Array>, b: Map<string, Uint8Array>): boolean {
  if (a.size !== b.size) return false;
  for (const [name, bytes] of a) {
    const other = b.get(name);
    if (other === undefined || !sameBytes(bytes, other)) return false;
  }
  return true;
}

export function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The same for the same name and files, wherever they were opened from. */
export async function contentId(name: string, files: Map<string, Uint8Array>): Promise<string> {
  const parts: BlobPart[] = [];
  for (const [file, bytes] of [...files].sort(([a], [b]) => (a < b ? -1 : 1)))
    parts.push(`${file}\0${bytes.length}\0`, bytes as BlobPart);
  const digest = await crypto.subtle.digest('SHA-256', await new Blob(parts).arrayBuffer());
  const hex = [...new Uint8Array(digest, 0, 8)]
    .map((b) => b.toString(16).padStart(2, '0'))
    .join('');
  return `${name}:${hex}`;
}
