/** What a browser may load and run for the map application: itself and nothing else. Shared by the server and the build. */

export interface PolicyOptions {
  /** origin of a base map that the user named; nothing else beyond the page's own origin can be reached */
  basemapOrigin?: string | null;
}

/**
 * The Content-Security-Policy. `frame-ancestors` counts only in a header: leave it out (`meta`) in the page itself.
 * Colours and places are set through the style object model, which needs no exception for inline styles; WebAssembly is for
 * the packed depth rasters of some GIS (LERC, Zstandard).
 */
export function contentSecurityPolicy(
  where: 'header' | 'meta',
  { basemapOrigin = null }: PolicyOptions = {},
): string {
  const also = basemapOrigin === null ? '' : ` ${basemapOrigin}`;
  const rules = [
    "default-src 'self'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    `img-src 'self' blob: data:${also}`,
    "font-src 'self'",
    "worker-src 'self' blob:",
    `connect-src 'self' blob: data:${also}`,
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ];
  if (where === 'header') rules.push("frame-ancestors 'none'");
  return rules.join('; ');
}

/** All headers that go with every answer of the server. */
export function securityHeaders(options: PolicyOptions = {}): Record<string, string> {
  return {
    'Content-Security-Policy': contentSecurityPolicy('header', options),
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    // the position for a waypoint of the Field log, when its reader asks for it
    'Permissions-Policy': 'camera=(), microphone=(), geolocation=(self), payment=()',
  };
}
