/** Pictures that are asked for one by one; `null` once there are no more. */
export interface PicturesByAsking {
  next(): Promise<ImageBitmap | null>;
  stop(): void;
}

type Video = Pick<HTMLVideoElement, 'play'> & {
  requestVideoFrameCallback?(shown: () => void): number;
};

/** Calls once the video shows another picture; without word from the browser, when the page is next drawn. */
export function whenNextShown(video: Video, shown: () => void): void {
  if (video.requestVideoFrameCallback) video.requestVideoFrameCallback(shown);
  else requestAnimationFrame(shown);
}

/**
 * A camera's pictures where the browser hands none out by themselves: taken off a video that plays unseen, in the
 * colours that a page would show. None come while the page is out of sight.
 */
export async function videoPictures(track: MediaStreamTrack): Promise<PicturesByAsking> {
  const video = document.createElement('video');
  video.muted = true;
  video.playsInline = true;
  video.srcObject = new MediaStream([track]);
  await video.play();
  let isOver = false;
  let wake = () => {};
  const end = () => {
    isOver = true;
    wake();
  };
  track.addEventListener('ended', end);
  return {
    async next() {
      const shown = new Promise<void>((resolve) => {
        wake = resolve;
        whenNextShown(video, resolve);
      });
      if (!isOver) await shown;
      return isOver ? null : createImageBitmap(video);
    },
    stop() {
      end();
      video.srcObject = null;
    },
  };
}
