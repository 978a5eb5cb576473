type Random = Pick<Crypto, 'getRandomValues'> & Partial<Pick<Crypto, 'randomUUID'>>;

/** A name that nothing else has; addresses that are not secure offer random bytes only. */
export function newId(random: Random = globalThis.crypto): string {
  if (random.randomUUID) return random.randomUUID();
  const bytes = random.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
