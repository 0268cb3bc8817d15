import type { Plugin as EsbuildPlugin } from 'esbuild';
import type { Plugin } from 'vite';

export const viewerInBundle: EsbuildPlugin;
export function viewerInPage(): Plugin;
