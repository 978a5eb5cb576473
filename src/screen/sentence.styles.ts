import { css } from 'lit';

/** A sentence whose words are controls: each reads as a word, with a line under it. */
export const sentenceStyles = css`
  select,
  input {
    height: 1.75rem;
    vertical-align: middle;
    line-height: 1.5;
    padding: 0;
    border: 0;
    border-bottom: 2px solid var(--rule);
    border-radius: 0;
    background: var(--ground);
    color: inherit;
    font: inherit;
    font-weight: 600;
    field-sizing: content;
    max-width: 100%;
  }
  input {
    min-width: 3ch;
  }
  input::placeholder {
    color: var(--quiet-ink);
    font-weight: 400;
    opacity: 1;
  }
  summary {
    width: fit-content;
    padding: 0.25rem 0;
    cursor: pointer;
  }
  p {
    margin: 0;
    line-height: 2;
  }
  .source {
    max-width: 80ch;
    line-height: 1.5;
  }
`;
