/** Somebody who fills in the file that `new` wrote: only what is needed, by hand, line by line. */

/** What was measured, invented. */
const MEASURED: Readonly<Record<string, string>> = {
  ...{ extended: '474 mm', compressed: '324 mm', body_length: '12.52 in' },
  ...{ ledge_height: '150 mm', length: '160 mm', trim: '20 mm' },
  ...{ height: '11 mm', raise: '12 mm', flange_depth: '-10 mm' },
  ...{ free_length: '280 mm', solid_height: '100 mm' },
};

/** Two parts have a `length`: the stop is the later one. */
const LENGTH_OF_STOP = '60 mm';

/** The text with every value that is needed put in. @throws where a needed value is none that was measured */
export function filled(text: string): string {
  let list = '';
  return text
    .split('\n')
    .map((line) => {
      list = /^ {4}(\w+):$/.exec(line)?.[1] ?? list;
      const field = /(\w+): unknown/.exec(line)?.[1];
      if (field === undefined || line.includes('may stay unknown')) return line;
      const value = list === 'bump_stops' && field === 'length' ? LENGTH_OF_STOP : MEASURED[field];
      if (value === undefined) throw new Error(`not measured: ${list}.${field}`);
      return line.replace('unknown', value);
    })
    .join('\n');
}
