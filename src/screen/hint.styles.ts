import { css } from 'lit';

/** What a button is for stands beside it until the page has more to say. */
export const hintStyles = css`
  :host([brief]) .hint {
    display: none;
  }
`;
