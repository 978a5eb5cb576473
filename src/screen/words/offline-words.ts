import type { OfflineState } from '../offline-copy.ts';

/** Whether the page can be used without a network, at its foot. */
export const OFFLINE_WORDS: Record<OfflineState, string> = {
  unknown: '',
  fetching: 'A copy of this page, to be used without a network, is being fetched.',
  ready:
    'Ready to be used without a network: this browser keeps a copy of the whole page, what opens raw files included.',
  newer:
    'A newer version is kept beside this one, ready to be used without a network: it takes over once every page of this one is closed, or when you ask for it. Takes stay kept, as through a reload.',
  'newer-blocked':
    'The newer version has to wait: this one is open in another page of this browser. Close that first.',
  'newer-silent':
    'The newer version cannot be loaded yet: the copy of this one does not answer. Ask again, or close every page of this one and open it anew.',
  silent:
    'Whether this page can be used without a network is not known yet: the copy that this browser keeps has not answered. Where this stays so, load the page again.',
  failed:
    'Not to be used without a network: no whole copy of this page could be kept. It is tried again when the page is loaded again.',
  impossible: 'Not to be used without a network: this browser, or this address, allows no copy of the page.',
};
