/** `fields [PATH]`: the fields of a scenario, all of them or those at a path. */

import { type FieldSection, fieldsBelow, REQUIRED } from '../../input/schema/fieldReference.ts';
import { hanging } from '../../report/text/textWidth.ts';
import { badInput, EXIT, type ExitCode, tell } from '../terminal/exit.ts';
import * as say from '../terminal/messages.ts';

export async function fields(path = ''): Promise<ExitCode> {
  const found = fieldsBelow(path);
  if (found.length === 0) throw badInput(say.noField(path));
  tell(found.map(sectionText).join('\n\n'));
  return EXIT.ok;
}

function sectionText({ path, rows }: FieldSection): string {
  const width = Math.max(...rows.map(({ field }) => field.length)) + 4;
  const rest = ' '.repeat(width);
  const lines = rows.flatMap(({ field, kind, whenLeftOut, text }) => [
    ...hanging(`  ${field}`.padEnd(width), plain(text)),
    ...hanging(rest, plain(kind)),
    ...hanging(rest, whenLeftOut === REQUIRED ? whenLeftOut : `left out: ${plain(whenLeftOut)}`),
  ]);
  return [say.fieldsOf(path), ...lines].join('\n');
}

/** Without the marks that set words to be typed apart on a page. */
function plain(text: string): string {
  return text.replaceAll('`', '');
}
