/** What a user is told to type starts the program from where he stands. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { ownCommand } from '../../../src/cli/terminal/places.ts';
import { springsift } from '../../setup/run.ts';

const folder = mkdtempSync(join(tmpdir(), 'springsift own-'));
afterAll(() => rmSync(folder, { recursive: true }));

const started = (script: string, more: object = {}) =>
  ownCommand({ script, flags: [], cwd: '/srv/me', env: {}, ...more });

test.each([
  ['npx springsift', '/srv/me/node_modules/.bin/springsift', { env: { npm_command: 'exec' } }],
  ['springsift', '/usr/local/bin/springsift', { env: { PATH: '/bin:/usr/local/bin' } }],
  ['node tools/springsift', '/srv/me/tools/springsift', { env: { PATH: '/bin' } }],
  ['node /opt/springsift', '/opt/springsift', {}],
  ['node dist/cli/main.js', '/srv/me/dist/cli/main.js', { env: { npm_command: 'exec' } }],
  ['node /opt/it/dist/cli/main.js', '/opt/it/dist/cli/main.js', {}],
  ['node "my tools/main.js"', '/srv/me/my tools/main.js', {}],
  ['npx tsx src/cli/main.ts', '/srv/me/src/cli/main.ts', {}],
  ['node --import file:///a/tsx.mjs /opt/main.ts', '/opt/main.ts', { flags: ['--import', 'file:///a/tsx.mjs'] }],
])('%s', (command, script, more) => {
  expect(started(script, more)).toBe(command);
});

test('what `new` prints runs as printed, from the folder it was printed in', { timeout: 300_000 }, async () => {
  const { stdout } = await springsift(['new', 'my car', '--example'], { cwd: folder });
  const [check = '', sweep = ''] = stdout.split('\n').filter((line) => line.startsWith('  '));
  expect(sweep).toMatch(/ sweep "my car\/scenario\.yaml" --out "my car\/out"$/);
  const said = execFileSync('sh', ['-c', check], { cwd: folder, encoding: 'utf8' });
  expect(said).toMatch(/^Hill hatch \(invented\): no problem\./);
});
