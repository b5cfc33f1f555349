import { expect, test } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.ts';

test('every command has a name of its own', () => {
  expect(new Set(COMMANDS.map(({ name }) => name)).size).toBe(COMMANDS.length);
});

test.each(COMMANDS)(
  '$name says what it does, shows an example of itself and leads to what does it',
  async (command) => {
    expect(command.help).toMatch(/^[a-z].*[^.]$/);
    expect(command.example.split(' ')[0]).toBe(command.name);
    expect(await command.load()).toBeTypeOf('function');
  },
);
