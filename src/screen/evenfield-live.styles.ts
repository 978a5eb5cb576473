import { css } from 'lit';

export const liveStyles = css`
  .line {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
    line-height: 1.5;
  }
  .name {
    overflow-wrap: anywhere;
  }
  .seen {
    display: grid;
    gap: 1rem 2rem;
    align-items: start;
    margin-block: 0.75rem;
  }
  figure {
    position: relative;
    margin: 0;
    max-width: 40rem;
    aspect-ratio: var(--ratio);
  }
  canvas,
  svg {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
  }
  path {
    fill: none;
    stroke: #191919;
    vector-effect: non-scaling-stroke;
  }
  .contour {
    stroke-width: 1;
  }
  .tolerance {
    stroke-width: 3;
  }
  .figure {
    margin: 0 0 0.25rem;
    font-size: var(--verdict-size);
    line-height: 1.2;
    font-variant-numeric: tabular-nums;
  }
  .seen p:not(.figure) {
    margin-bottom: 0.25rem;
  }
  .seen p:not(.figure),
  .small {
    line-height: 1.5;
  }
  .drift {
    font-weight: 700;
  }
  @container (min-width: 55rem) {
    .seen {
      grid-template-columns: 3fr 2fr;
    }
    figure {
      max-width: none;
    }
  }
`;
