/** Hostile names on the page and in the terminal: text, and nothing else. */
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { fittingHtml } from '../../src/fitting/page.ts';
import { fittingText } from '../../src/fitting/text.ts';
import { benchOfText, CORNER_TEXT } from '../setup/benchScenario.ts';
import { HOSTILE_NAME, withHostileNames } from '../setup/hostileNames.ts';

/** Every part named, two of each that the page then tells apart. */
function named(): unknown {
  const tree = parse(CORNER_TEXT);
  const { front } = tree.axles;
  for (const list of ['dampers', 'mounts', 'bump_stops', 'sleeves', 'perches', 'springs']) {
    front[list] = [1, 2].map((k) => ({ name: `${list} ${k}`, ...front[list][0] }));
  }
  front.helpers = ['none', { name: 'helper', free_length: '60 mm', block_height: '14 mm' }];
  return { name: 'x', description: 'y', ...tree };
}

test('names of every part, title and description stand as text', async () => {
  const { tree, places } = withHostileNames(named());
  expect(places).toHaveLength(2 + 6 * 2 + 1);
  const text = stringify(tree);
  const { scenario, warnings } = await benchOfText(text);
  const fittings = fittingsOf(scenario);
  const files = [{ path: `${HOSTILE_NAME}.yaml`, sha256: 'f'.repeat(64), text }];
  const html = await fittingHtml({ scenario, files, warnings, fittings, toolVersion: 'test' } as never);
  expect(html).not.toContain('<img');
  expect(html).not.toContain('</script>');
  expect(html.match(/<\/style>/g)).toHaveLength(1);
  expect(html).toContain('&lt;img src');
  expect(html).toContain('{{x}}');
  for (const part of ['damper', 'top mount', 'bump stop', 'sleeve', 'perch', 'main spring']) {
    expect(html).toContain(`${part} &#x3D;1+1`.replace('&#x3D;', html.includes('&#x3D;') ? '&#x3D;' : '='));
  }
});

test('signs that turn text around or clear the screen are shown, not obeyed', async () => {
  const text = CORNER_TEXT.replace('axles:', 'description: "a\\u202eb"\naxles:');
  const { scenario } = await benchOfText(text);
  const fittings = fittingsOf(scenario);
  const said = fittingText({ name: 'clear\u001b[2J' }, fittings);
  expect(said).not.toContain('\u001b');
  const html = await fittingHtml({ scenario, files: [], warnings: [], fittings, toolVersion: 'test' });
  expect(html).not.toContain('\u202e');
});
