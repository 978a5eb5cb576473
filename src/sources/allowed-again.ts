import type { FollowedFolder } from './watched-folder.ts';

interface WithPermission {
  requestPermission?(wish: { mode: 'read' }): Promise<string>;
}

/** Asks the browser to allow a folder again; to be called by a press of a button. Whether it does. */
export async function allowedAgain(folder: FollowedFolder & WithPermission): Promise<boolean> {
  return (await folder.requestPermission?.({ mode: 'read' })) === 'granted';
}
