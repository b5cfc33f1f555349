/** Where a damaged JSON text stops being JSON. The runtime's own message names a place only now and then. */

/** What may come next. */
type Next = 'value' | 'value or ]' | 'key' | 'key or }' | ':' | ', or end' | 'nothing';

const WHITE = /[ \t\r\n]*/y;
const TOKEN = /[{}[\],:]|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[Ee][+-]?\d+)?|true|false|null/y;
/** What a text holds up to its next quotation mark, escape or unlawful sign; each alone, so that nothing is read twice. */
const LETTERS = /[ !#-[\]-\uffff]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[\dA-Fa-f]{4})/y;

/** The offset of the first sign that no JSON text could have there; the text's length where it breaks off; or null. */
export function jsonFaultAt(text: string): number | null {
  /** Brackets that are open, the innermost last. */
  const open: string[] = [];
  let next: Next = 'value';
  for (let at = skip(WHITE, text, 0); ; at = skip(WHITE, text, at)) {
    if (at === text.length) return next === 'nothing' ? null : at;
    const end: number = text[at] === '"' ? endOfText(text, at) : skip(TOKEN, text, at);
    const then: Next | null = end === at ? null : after(text.slice(at, end), next, open);
    if (then === null) return at;
    next = then;
    at = end;
  }
}

function skip(pattern: RegExp, text: string, from: number): number {
  pattern.lastIndex = from;
  return pattern.test(text) ? pattern.lastIndex : from;
}

/** Where the text that starts at `from` ends; `from` itself where it does not. */
function endOfText(text: string, from: number): number {
  for (let at = skip(LETTERS, text, from + 1); ; at = skip(LETTERS, text, at)) {
    if (text[at] === '"') return at + 1;
    const escaped = skip(ESCAPE, text, at);
    if (escaped === at) return from;
    at = escaped;
  }
}

/** What may follow a token, or null where it may not stand there itself. */
function after(token: string, expected: Next, open: string[]): Next | null {
  const isText = token.startsWith('"');
  if (expected === 'key' || expected === 'key or }') {
    if (isText) return ':';
    return token === '}' && expected === 'key or }' ? closed(open) : null;
  }
  if (expected === ':') return token === ':' ? 'value' : null;
  if (expected === ', or end') {
    const inner = open.at(-1);
    if (token === ',') return inner === '{' ? 'key' : 'value';
    return token === (inner === '{' ? '}' : ']') ? closed(open) : null;
  }
  if (expected === 'nothing') return null;
  if (token === ']' && expected === 'value or ]') return closed(open);
  if (token === '{' || token === '[') {
    open.push(token);
    return token === '{' ? 'key or }' : 'value or ]';
  }
  return /^[}\],:]$/.test(token) ? null : ended(open);
}

function closed(open: string[]): Next {
  open.pop();
  return ended(open);
}

function ended(open: readonly string[]): Next {
  return open.length > 0 ? ', or end' : 'nothing';
}
