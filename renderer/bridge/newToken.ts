/** A window's own token: 32 random bytes in hex. Made here, so that no answer of the core ever carries one. */
export function newToken(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(32));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
