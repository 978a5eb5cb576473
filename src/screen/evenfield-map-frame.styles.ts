import { css } from 'lit';

/** Places the map in its frame, and the sections along the frame's bottom and right edge. */
export const mapFrameStyles = css`
  .sheet {
    display: grid;
    grid-template-columns: var(--frameWidth) auto;
    gap: 14px;
    justify-content: start;
    padding-top: 1.25rem; /* the figures of the section that runs down stand above it */
  }
  .frame {
    position: relative;
    width: var(--frameWidth);
    height: var(--frameHeight);
    background: var(--faint-rule);
  }
  evenfield-frame-picture,
  evenfield-map-region {
    position: absolute;
    inset: 0;
  }
  .pointing {
    position: absolute;
    left: var(--left);
    top: var(--top);
    cursor: crosshair;
    touch-action: pan-y;
  }
  evenfield-map-drawing {
    width: var(--width);
    height: var(--height);
  }
`;
