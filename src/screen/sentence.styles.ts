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
  /* On a narrow page a chosen word may be wider than the line: it then wraps like any other. */
  @media (max-width: 30rem) {
    @supports (appearance: base-select) {
      select,
      ::picker(select) {
        appearance: base-select;
      }
      ::picker(select) {
        max-width: 92vw;
        border: 1px solid var(--ink);
        background: var(--ground);
        color: var(--ink);
      }
      select {
        height: auto;
        min-height: 1.75rem;
        line-height: 1.35;
        white-space: normal;
        text-align: start;
      }
      option {
        min-height: 2.75rem;
        line-height: 1.35;
        font-weight: 400;
        white-space: normal;
      }
      option:checked {
        font-weight: 600;
      }
    }
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
    max-width: 110ch;
    line-height: 1.5;
  }
`;
