import { readdirSync } from 'node:fs';
import { basename } from 'node:path';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';

const FOLDER = new URL('../../src/cli/commands/', import.meta.url);

test('every file of the folder of commands is a command of the command line, named like its file', async () => {
  const files = readdirSync(FOLDER);
  const found = await Promise.all(files.map(async (file) => (await import(new URL(file, FOLDER).href)).command));
  expect(found.map(({ name }) => name)).toEqual(files.map((file) => basename(file, '.ts')));
  expect(new Set(COMMANDS)).toEqual(new Set(found));
  expect(COMMANDS).toHaveLength(files.length);
});

test.each(COMMANDS)(
  '$name says what it does, shows an example of itself and leads to what does it',
  async (command) => {
    expect(command.help).toMatch(/^[a-z].*[^.]$/);
    expect(command.example.split(' ')[0]).toBe(command.name);
    expect(await command.load()).toBeTypeOf('function');
  },
);
