/** As much of the browser's Trusted Types as is used here. */
interface TrustedTypes {
  createPolicy(name: string, rules: { createScriptURL(address: string): string | null }): unknown;
}

/**
 * Lets scripts be started from addresses below one folder alone, where the page's policy asks for trusted ones; of text,
 * none. Browsers without Trusted Types go by the rest of the policy.
 */
export function trustAddressesBelow(
  folder: string,
  trustedTypes = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes,
): void {
  trustedTypes?.createPolicy('default', {
    createScriptURL: (address) => (new URL(address, folder).href.startsWith(folder) ? address : null),
  });
}
