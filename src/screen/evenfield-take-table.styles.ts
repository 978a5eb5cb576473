import { css } from 'lit';

export const takeTableStyles = css`
  .fold {
    container-type: inline-size;
  }
  summary {
    min-height: 2.75rem;
    display: list-item;
    padding-block: 0.5rem;
  }
  table {
    width: 100%;
    max-width: 60rem;
    margin: 0.5rem 0 0.75rem;
    border-collapse: collapse;
  }
  th,
  td {
    padding: 0.375rem 0 0.375rem 1rem;
    font-weight: 400;
    text-align: end;
    vertical-align: baseline;
  }
  th:first-child {
    padding-left: 0;
    text-align: start;
    overflow-wrap: anywhere;
  }
  tbody tr {
    border-top: 1px solid var(--faint-rule);
  }
  thead button {
    min-height: 2.75rem;
    padding: 0.25rem 0;
    border: 0;
    border-bottom: 2px solid var(--rule);
    text-align: inherit;
  }
  th[aria-sort] button {
    border-bottom-color: var(--ink);
    font-weight: 600;
  }
  .name {
    display: block;
  }
  .notes {
    line-height: 1.5;
    max-width: 90ch;
    margin-top: 0.5rem;
  }
  td::before {
    display: none;
    content: attr(data-name);
    color: var(--quiet-ink);
  }
  /* Narrow: one sheet under another, each figure after its name. The roles in the markup keep it a table. */
  @container (max-width: 34rem) {
    table,
    tbody,
    tr,
    th,
    td {
      display: block;
    }
    thead tr {
      display: flex;
      flex-wrap: wrap;
      gap: 0 1rem;
    }
    th,
    td {
      padding: 0.125rem 0;
      text-align: start;
    }
    tbody tr {
      padding: 0.375rem 0;
    }
    td {
      display: flex;
      justify-content: space-between;
      gap: 1rem;
      text-align: end;
    }
    td::before {
      display: inline;
    }
  }
`;
