/**
 * The headers of every answer. Nothing may be loaded but our own files; one style that the controls add carries the nonce of this answer.
 * `socket` is the one address besides our own that a page may connect to, or null.
 */
export function securityHeaders(nonce: string, socket: string | null): Readonly<Record<string, string>> {
  const policy = [
    `default-src 'none'`,
    `script-src 'self'`,
    `worker-src 'self'`,
    `style-src 'self' 'nonce-${nonce}'`,
    `img-src 'self' data:`,
    `font-src 'self'`,
    `connect-src 'self'${socket === null ? '' : ` ${socket}`}`,
    `base-uri 'none'`,
    `form-action 'none'`,
    `frame-ancestors 'none'`,
  ];
  return {
    'Content-Security-Policy': policy.join('; '),
    'Permissions-Policy': 'microphone=(self), camera=(), geolocation=()',
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cache-Control': 'no-store',
  };
}
