export function bundled(
  parent: string,
): Promise<{ driver: string; program: string; remove: () => void }>;
