import { css } from 'lit';

/**
 * Greys, type and rules of the report. The ground is L* 90 in light and L* 20 in dark surroundings, a* b* 0, so that
 * the frame's colour is judged against neutral. Greys are named for their L*.
 */
export const paper = css`
  :host {
    --ground: #e2e2e2; /* L* 90 */
    --ink: #191919; /* L* 8 */
    --quiet-ink: #474747; /* L* 30 */
    --rule: #777777; /* L* 50 */
    --faint-rule: #b9b9b9; /* L* 75 */
    --verdict-size: clamp(1.5rem, 1.1rem + 1.7vw, 2.25rem);
    --large-size: 1.3125rem;
    --text-size: 1rem;
    --small-size: 0.875rem;
    color-scheme: light dark;
    font-family: system-ui, sans-serif;
    font-size: var(--text-size);
    font-variant-numeric: tabular-nums;
    line-height: 1.5;
    color: var(--ink);
  }
  @media (prefers-color-scheme: dark) {
    :host {
      --ground: #303030; /* L* 20 */
      --ink: #ebebeb; /* L* 93 */
      --quiet-ink: #c6c6c6; /* L* 80 */
      --rule: #9e9e9e; /* L* 65 */
      --faint-rule: #5e5e5e; /* L* 40 */
    }
  }
  @media print {
    :host {
      --ground: #ffffff;
      --ink: #000000;
      --quiet-ink: #303030;
      --rule: #777777;
      --faint-rule: #b9b9b9;
      color-scheme: light;
    }
  }
`;

/** Type and controls inside each element; sizes and greys are inherited from {@link paper}. */
export const type = css`
  :host {
    display: block;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  h2 {
    margin: 0 0 0.5rem;
    padding-top: 0.5rem;
    border-top: 1px solid var(--rule);
    font-size: var(--text-size);
    font-weight: 600;
  }
  p,
  ol,
  ul,
  dl {
    margin: 0 0 0.75rem;
  }
  .large {
    font-size: var(--large-size);
    line-height: 1.35;
  }
  .small {
    font-size: var(--small-size);
  }
  .quiet {
    color: var(--quiet-ink);
  }
  button,
  .button {
    display: inline-block;
    min-height: 2.75rem;
    padding: 0.5rem 1rem;
    border: 1px solid var(--ink);
    border-radius: 0;
    background: none;
    color: inherit;
    font: inherit;
    text-align: start;
    cursor: pointer;
  }
  @media (forced-colors: none) {
    button:hover,
    .button:hover {
      background: var(--ink);
      color: var(--ground);
    }
  }
  @media (forced-colors: active) {
    button:hover,
    .button:hover {
      outline: 2px solid;
    }
  }
  @media (forced-colors: active) {
    button:hover,
    .button:hover {
      background: Highlight;
      color: HighlightText;
    }
  }
  button:hover .quiet {
    color: inherit; /* quiet ink would not stand out from what is then below it */
  }
  button[aria-pressed='true'],
  button[aria-current='true'] {
    font-weight: 600;
  }
  :focus-visible,
  .button:focus-within {
    outline: 3px solid var(--ink);
    outline-offset: 3px;
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    margin: -1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
`;
