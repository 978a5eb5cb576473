import { benchesOnPage } from './benches-on-page.ts';
import './evenfield-bench.ts';
import './evenfield-offline.ts';
import { OfflineCopy } from './offline-copy.ts';
import { trustAddressesBelow } from './trusted-addresses.ts';

// The tool's own page. What is here, a page that embeds the element does without: it gets no service worker of ours.

declare global {
  interface ImportMeta {
    /** Set when the page is built; while developing, nothing is kept of it. */
    readonly env: { readonly PROD: boolean };
  }
}

trustAddressesBelow(new URL('./', document.baseURI).href);
benchesOnPage.isOwnPage = true;

const { serviceWorker } = navigator;
const mayKeep = import.meta.env.PROD && window.isSecureContext && /^https?:$/.test(location.protocol);

const copy = new OfflineCopy({
  container: mayKeep && serviceWorker ? serviceWorker : null,
  address: new URL('offline.js', document.baseURI).href,
  script: import.meta.url,
  goTo: (address) => location.replace(address),
});
const foot = document.querySelector('evenfield-offline');
if (foot !== null) foot.copy = copy;

/** Nothing is fetched for later before the page stands and has nothing else to do. */
const whenIdle = (work: () => void) =>
  window.requestIdleCallback?.(work, { timeout: 5000 }) ?? setTimeout(work, 1000);
const begin = () => whenIdle(() => void copy.begin());
if (document.readyState === 'complete') begin();
else window.addEventListener('load', begin, { once: true });
