import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { machineFault } from '../../src/cli/commandLine.ts';

const coded = (code: string, message: string) => Object.assign(new Error(message), { code });

test.each<[string, Error, number, string]>([
  ['too few handles', coded('EMFILE', 'too many open files'), 1, 'ulimit -n'],
  ['too few handles in a thread', new Error('EMFILE: too many open files, open x'), 1, 'ulimit -n'],
  ['too few threads', coded('ERR_WORKER_INIT_FAILED', 'Worker initialization failure: EAGAIN'), 1, '--workers 1'],
  ['a working folder that is gone', coded('ENOENT', 'no such file or directory, uv_cwd'), 1, 'is gone'],
  ['a path too long', coded('ENAMETOOLONG', 'name too long, stat'), 2, 'too long'],
])('%s is said in a sentence with advice', (_, error, code, said) => {
  expect(machineFault(error)).toMatchObject({ code, message: expect.stringContaining(said) });
});

test('other errors are none of the machine’s', () => {
  expect(machineFault(coded('ENOENT', 'no such file'))).toBeNull();
  expect(machineFault('EMFILE')).toBeNull();
});

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const SCENARIO = fileURLToPath(new URL('../../scenarios/kit-two-seater/scenario.yaml', import.meta.url));

/** The built program in a shell, in which limits can be set. */
function inShell(before: string, cwd: string): Promise<{ readonly code: number; readonly stderr: string }> {
  const line = `${before} "${process.execPath}" "${MAIN}" sweep "${SCENARIO}" --out "${cwd}/out" --quiet`;
  return new Promise((resolve) => {
    execFile('/bin/sh', ['-c', line], { cwd }, (error, _, stderr) => {
      resolve({ code: Number(error?.code ?? 0), stderr });
    });
  });
}

test('a sweep with room for few open files ends in a sentence, not in a stack', async () => {
  const cwd = await mkdtemp(join(tmpdir(), 'springsift-handles-'));
  const { code, stderr } = await inShell('ulimit -n 40;', cwd);
  expect(code).toBe(1);
  expect(stderr).toMatch(/^Too many files are open at once\..*ulimit -n 1024.*\n$/);
  await rm(cwd, { recursive: true });
});

test('a sweep in a working folder that is gone ends in a sentence before any work', async () => {
  const cwd = await mkdtemp(join(tmpdir(), 'springsift-gone-'));
  const { code, stderr } = await inShell(`rmdir "${cwd}";`, cwd);
  expect(code).toBe(1);
  expect(stderr).toBe('The folder this was started in is gone. Change to a folder that exists, and run it again.\n');
});
