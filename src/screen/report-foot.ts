/** What stands further down a report: fetched once its head is drawn, so that a first reading need not wait for it. */
import './evenfield-compare.ts';
import './evenfield-correct.ts';
import './evenfield-response.ts';
import './evenfield-save-plots.ts';
