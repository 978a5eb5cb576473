import { css } from 'lit';

export const planStyles = css`
  :host {
    container-type: inline-size;
  }
  /* the drawing's words grow with its width alone: where that is small for the type, they stand under it too */
  .in-words {
    display: none;
    overflow-wrap: anywhere;
  }
  @container (max-width: 20rem) {
    .in-words {
      display: block;
    }
  }
  svg {
    display: block;
    width: 100%;
    max-width: 31.25rem;
    height: auto;
    margin-bottom: 0.5rem;
  }
  path,
  circle {
    fill: none;
    stroke: currentColor;
  }
  .leader,
  .somewhere {
    opacity: 0.5;
  }
  .leader {
    stroke-width: 0.75;
  }
  .somewhere {
    stroke-dasharray: 2 4;
  }
  .unsure {
    stroke-dasharray: 5 4;
  }
  .spread {
    fill: url(#soft);
    stroke: var(--rule);
  }
  .spill {
    stroke-width: 1.5;
  }
  .light {
    stroke-width: 1.5;
    fill: var(--ground);
  }
  .frame {
    stroke-width: 5;
  }
  .hottest {
    stroke-width: 4;
  }
  .camera {
    fill: currentColor;
  }
  .breaks {
    stroke-width: 1.5;
  }
  .move {
    stroke-width: 2.5;
  }
  text {
    fill: currentColor;
    font-size: 14px;
  }
  .switch {
    display: flex;
    gap: 1.25rem;
    margin-bottom: 0.5rem;
  }
  .switch label {
    display: inline-flex;
    align-items: center;
    gap: 0.375rem;
    min-height: 2.75rem;
  }
  .switch input {
    width: 1.125rem;
    height: 1.125rem;
    margin: 0;
    accent-color: var(--ink);
  }
  @media (forced-colors: active) {
    .light {
      fill: Canvas;
    }
    .spread {
      fill: none;
      stroke: currentColor;
    }
  }
`;
