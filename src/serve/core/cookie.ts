/**
 * The cookie that a link's token is exchanged for (RFC 6265). Under TLS its name begins with `__Host-`, which browsers
 * take from this very host over TLS only (RFC 6265bis section 4.1.3.2): a page in clear on the same address can
 * neither read nor set it.
 */
const names = { encrypted: '__Host-setside', clear: 'setside' } as const;

/** 28 letters and digits; anything else was not given out here. */
const secretPattern = /^[a-z2-9]{16,64}$/;

/** The header that gives a secret away to a browser for so many seconds; none takes it back. */
export function setCookie(secret: string, maxAgeS: number, encrypted: boolean): string {
  const parts = [
    `${encrypted ? names.encrypted : names.clear}=${secret}`,
    'Path=/',
    `Max-Age=${Math.max(0, Math.floor(maxAgeS))}`,
    'HttpOnly',
    'SameSite=Strict',
    ...(encrypted ? ['Secure'] : []),
  ];
  return parts.join('; ');
}

/** The secret in a `Cookie` header; null where there is none of ours. */
export function secretIn(header: string | undefined, encrypted: boolean): string | null {
  const name = encrypted ? names.encrypted : names.clear;
  for (const pair of (header ?? '').split(';')) {
    const [key = '', value = ''] = pair.trim().split('=', 2);
    if (key === name && secretPattern.test(value)) return value;
  }
  return null;
}
