/** Takes out of a drawn chart what nobody sees: it is three quarters of the bytes. */

/** Attributes that say nothing, or that the page's own style says. */
const IDLE =
  / (?:class|role|aria-roledescription|aria-label|aria-hidden|pointer-events|font-family|stroke-miterlimit|font-weight="normal|opacity="1)(?:="[^"]*)?"/g;

/** A run of like elements shorter than this is not worth a group. */
const RUN = 3;

export function slimmed(body: string): string {
  const bare = body.replace(/<[^<>]*>/g, (tag) => tag.replace(IDLE, '').replace(/ d="[^"]*"/, coarse));
  return grouped(merged(withoutUnseen(bare)));
}

/** A tenth of a pixel is seen by nobody. */
function coarse(d: string): string {
  return d.replace(/-?\d+\.\d{2,}/g, (digits) => String(Math.round(Number(digits) * 10) / 10 + 0));
}

/** Paths without fill and stroke (a chart's root has fill none), and groups that hold nothing. */
function withoutUnseen(body: string): string {
  let before = '';
  let after = body
    .replace(/<path(?: transform="[^"]*")? d="[^"]*"(?: display="none")?\/>/g, '')
    .replace(/<path d="" [^>]*\/>/g, '');
  while (after !== before) {
    before = after;
    after = before.replace(/<g[^<>]*><\/g>/g, '');
  }
  return after;
}

/** Neighbouring paths of one look become one path. */
function merged(body: string): string {
  return body.replace(/(?:<path d="[^"]*"[^<>]*\/>){2,}/g, (run) => {
    const paths = [...run.matchAll(/<path d="([^"]*)"([^<>]*)\/>/g)].map(([, d = '', look = '']) => ({ d, look }));
    const kept: { d: string; look: string }[] = [];
    for (const path of paths) {
      const last = kept.at(-1);
      // What is see-through would lie doubly on itself.
      if (last && last.look === path.look && !/opacity/.test(path.look)) last.d += path.d;
      else kept.push({ ...path });
    }
    return kept.map(({ d, look }) => `<path d="${d}"${look}/>`).join('');
  });
}

/** Runs of elements that differ only in place and content get their look from a group around them. */
function grouped(body: string): string {
  return [/<line[^<>]*\/>/, /<path[^<>]*\/>/, /<text[^<>]*>(?:[^<>]|<tspan[^<>]*>[^<>]*<\/tspan>)*<\/text>/].reduce(
    (text, element) =>
      text.replace(new RegExp(`(?:${element.source}){${RUN},}`, 'g'), (run) => regrouped(run, element)),
    body,
  );
}

function regrouped(run: string, element: RegExp): string {
  const groups: { look: string; parts: string[]; whole: string[] }[] = [];
  for (const [whole] of run.matchAll(new RegExp(element.source, 'g'))) {
    const { look, part } = split(whole);
    const last = groups.at(-1);
    if (last && last.look === look) {
      last.parts.push(part);
      last.whole.push(whole);
    } else groups.push({ look, parts: [part], whole: [whole] });
  }
  return groups
    .map(({ look, parts, whole }) =>
      parts.length >= RUN && look !== '' ? `<g${look}>${parts.join('')}</g>` : whole.join(''),
    )
    .join('');
}

/** What a group can hand down, and what each element keeps. */
const INHERITED = / (?:fill|stroke|stroke-width|stroke-dasharray|fill-opacity|font-size|text-anchor)="[^"]*"/g;

function split(element: string): { readonly look: string; readonly part: string } {
  const head = element.slice(0, element.indexOf('>'));
  const look = (head.match(INHERITED) ?? []).join('');
  return { look, part: head.replace(INHERITED, '') + element.slice(head.length) };
}
