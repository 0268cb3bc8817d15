/** Hands bytes to the reader as a file. */

export function download(bytes: Uint8Array, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([bytes as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // the browser has taken the address when the click has been dealt with
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

/** A name that every system accepts as a file's. */
export function fileName(lake: string, what: string, ending = 'zip'): string {
  return `${plain(lake) || 'survey'}-${plain(what)}.${ending}`;
}

function plain(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
}
