/** What cameras call their raw files; common knowledge, no published source. What a file is, its content says. */
const RAW_EXTENSIONS = [
  ...[
    '3fr',
    'arw',
    'cr2',
    'cr3',
    'crw',
    'dcr',
    'dng',
    'erf',
    'fff',
    'gpr',
    'iiq',
    'kdc',
    'mef',
    'mos',
    'mrw',
    'nef',
  ],
  ...['nrw', 'orf', 'pef', 'raf', 'raw', 'rw2', 'rwl', 'sr2', 'srf', 'srw', 'x3f'],
];

/** For a file chooser: raw files have no kind that browsers know, so they are named by their endings. */
export const ACCEPTED_FILES = [
  ...['image/jpeg', 'image/png', 'image/tiff', 'image/webp', 'image/avif', 'image/heic', 'image/heif'],
  ...['.webp', '.avif', '.heic', '.heif'], // for those who have no kind for them
  ...RAW_EXTENSIONS.map((extension) => `.${extension}`),
].join(',');

const PICTURES = new RegExp(`\\.(jpe?g|png|tiff?|webp|avif|hei[cf]|${RAW_EXTENSIONS.join('|')})$`, 'i');

const RAWS = new RegExp(`\\.(${RAW_EXTENSIONS.join('|')})$`, 'i');

/** Whether a file is a camera's raw file, by its name. */
export function isRawName(name: string): boolean {
  return RAWS.test(name);
}

/** Whether a file may be a picture, by its name. */
export function isPictureName(name: string): boolean {
  return PICTURES.test(name);
}
