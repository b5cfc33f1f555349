/** What can be written from a report: the page, tables, record, order list, and the scenario with its catalogues. */
export const TAKES = ['page', 'csv', 'json', 'markdown', 'inputs'] as const;
export type Take = (typeof TAKES)[number];
