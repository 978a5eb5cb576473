import { css } from 'lit';

export const takesListStyles = css`
  :host {
    display: block;
    container-type: inline-size;
  }
  table {
    width: 100%;
    border-collapse: collapse;
    table-layout: fixed;
  }
  th:nth-child(2) {
    width: 36%;
  }
  th:nth-child(3) {
    width: 30%;
  }
  thead th {
    font-size: var(--small-size);
    font-weight: 400;
    color: var(--quiet-ink);
    text-align: start;
  }
  tbody tr {
    border-top: 1px solid var(--faint-rule);
  }
  th,
  td {
    padding: 0.5rem 0.75rem 0.5rem 0;
    font-weight: 400;
    text-align: start;
    vertical-align: top;
  }
  th:last-child,
  td:last-child {
    padding-right: 0;
  }
  td span.small {
    display: block;
  }
  .show {
    display: block;
    width: 100%;
    padding: 0.375rem 0.5rem;
    border-color: var(--rule);
  }
  .show .small {
    display: block;
  }
  evenfield-take-picture {
    display: block;
    width: min(4.5rem, 100%);
    margin: 0.25rem 0;
  }
  td .small {
    margin-top: 0.25rem;
  }
  .show[aria-current='true'] {
    border-color: var(--ink);
    border-inline-start-width: 5px;
  }
  .name {
    display: block;
    font-weight: 400;
    overflow-wrap: anywhere;
  }
  textarea {
    width: 100%;
    min-height: 2.75rem;
    padding: 0.25rem;
    border: 0;
    border-bottom: 2px solid var(--rule);
    border-radius: 0;
    background: var(--ground);
    color: inherit;
    font: inherit;
    resize: vertical;
    field-sizing: content;
  }
  textarea::placeholder {
    color: var(--quiet-ink);
    opacity: 1;
  }
  /* Large type on a narrow screen: one take under another. The roles in the markup keep it a table. */
  @container (max-width: 18rem) {
    table,
    tbody,
    tr,
    th,
    td {
      display: block;
      width: auto;
    }
    thead {
      display: none;
    }
    th,
    td {
      padding-right: 0;
    }
  }
`;
