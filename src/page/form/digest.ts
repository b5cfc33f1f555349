/** Digests as Node's module gives them: the bundler puts this in its place. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** Only of the one kind, and in hexadecimal digits. */
export function createHash(_algorithm: 'sha256'): { update(bytes: Uint8Array): { digest(form: 'hex'): string } } {
  return { update: (bytes) => ({ digest: () => bytesToHex(sha256(bytes)) }) };
}
