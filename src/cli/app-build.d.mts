/** What app-build.mjs gives to those that are checked for types. */

export function siteFolder(root: string, tell: (text: string) => void): Promise<string>;
export function oneFile(root: string, tell: (text: string) => void): Promise<string>;
