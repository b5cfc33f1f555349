/**
 * A page made lean: what looks the same with fewer signs. Nothing that is seen goes, so templates, charts and drawings
 * can stay plain.
 */
import { reachOf, shortPath } from './pathData.ts';
import { straightPath } from './polyline.ts';

const UNSEEN_TEXT = /<text(?: [^<>]*)? opacity="0"[^<>]*>(?:[^<>]|<tspan[^<>]*>[^<>]*<\/tspan>)*<\/text>/g;
const UNSEEN_PATH = /<path(?: [^<>]*)? opacity="0"[^<>]*\/>/g;
const LINE = /<line transform="translate\(([^,()]+),([^,()]+)\)" x2="([^"]+)" y2="([^"]+)"([^<>]*)\/>/g;
const RECTANGLE = /<rect( class="[^"]*")? x="([^"]*)" y="([^"]*)" width="([\d.]+)" height="([\d.]+)"\/>/g;
const MOVED_PATH = /<path transform="translate\(([^,()]+),([^,()]+)\)" d="([^"]*)"([^<>]*)\/>/g;
const MOVED_WORDS = /<text([^<>]*?) transform="translate\(([^,()]+),([^,()]+)\)"([^<>]*)>([^<>]*)<\/text>/g;
const PATH = /<path([^<>]*?) d="([^"]*)"/g;
const PLACED_WORDS = /<(?:text|tspan) [^<>]*>/g;
const WINDOW = /<svg x="[^"]*" y="[^"]*" width="[^"]*" height="[^"]*" viewBox="([^"]*)">[\s\S]*?<\/svg>/g;
const RUN_OF_PATHS = /(?:<path d="[^"]*"[^<>]*\/>){2,}/g;

/** HTML lets these end tags be left out, and white space before a block means nothing. */
const IDLE_ENDS = /<\/(?:t[dhr]|li|d[dt])>/g;
const BLOCKS =
  'div|p|h[1-6]|section|article|figure|figcaption|ul|ol|li|dl|dt|dd|nav|header|main|footer|fieldset|t[dhr]|tbody|thead|table|caption';
const IDLE_SPACE = new RegExp(`\\s*\\n\\s*(?=</?(?:${BLOCKS})\\b)`, 'g');
/** What a picture's text or line is without being told; the page's styles give charts their size of letters. */
const DEFAULTS = / (?:text-anchor="start"|stroke-width="1"|stroke-dasharray="1,0"|font-size="12px")/g;

/** Lean markup of a page; what comes with its scripts and data stays as it is. */
export function leanPage(html: string): string {
  const end = html.indexOf('<script');
  const body = end < 0 ? html : html.slice(0, end);
  return leanText(leanPictures(body)) + html.slice(body.length);
}

function leanText(body: string): string {
  return body
    .replace(IDLE_ENDS, '')
    .replace(IDLE_SPACE, '')
    .replace(/<\/thead>(?=<tbody)|<\/tbody>(?=<tbody|<\/table>)/g, '')
    .replaceAll('&nbsp;', '\u00a0')
    .replace(/<(td|th|small)( [^<>]*)? class="([a-z])"/g, '<$1$2 class=$3')
    .replace(/ aria-hidden="true"(?=[ >])/g, ' aria-hidden=true');
}

/** Elements of these names stand in pictures only. */
function leanPictures(body: string): string {
  const plain = straightened(body.replaceAll(' xmlns="http://www.w3.org/2000/svg"', ''));
  return unquoted(shortened(joined(unwrapped(clipped(plain)))));
}

/** Labels that a chart hid, lines as paths, marks drawn where they stand, figures to a tenth of a pixel. */
function straightened(svg: string): string {
  return svg
    .replace(UNSEEN_TEXT, '')
    .replace(UNSEEN_PATH, '')
    .replace(/<[^<>]+>/g, (tag) => tag.replace(DEFAULTS, ''))
    .replace(LINE, (_, x, y, dx, dy, look) => `<path d="M${x},${y}l${dx},${dy}"${look}/>`)
    .replace(MOVED_PATH, (whole, x, y, d, look) => {
      const moved = shortPath(d, Number(x), Number(y));
      return moved === null ? whole : `<path d="${moved}"${look}/>`;
    })
    .replace(RECTANGLE, (_, look = '', x, y, width, height) => {
      return `<path${look} d="M${x},${y}h${width}v${height}h-${width}z"/>`;
    })
    .replace(MOVED_WORDS, (_, before, x, y, after, words) => {
      return `<text${before} x="${tenth(x)}" y="${tenth(y)}"${after}>${words}</text>`;
    })
    .replace(/ transform="[^"]*"/g, (transform) => rounded(transform, 10))
    .replace(/ fill-opacity="[^"]*"/g, (opacity) => rounded(opacity, 1000));
}

function tenth(digits: string): number {
  return Math.round(Number(digits) * 10) / 10 + 0;
}

function rounded(text: string, parts: number): string {
  return text.replace(/-?\d+\.\d+/g, (digits) => String(Math.round(Number(digits) * parts) / parts + 0));
}

/** Half of the widest stroke, and then some. */
const STROKE = 30;

/** An enlarged figure shows a part of what it draws: pieces that lie outside its window go. */
function clipped(body: string): string {
  return body.replace(WINDOW, (svg, box: string) => {
    const [x = 0, y = 0, width = 0, height = 0] = box.split(' ').map(Number);
    const isSeen = (piece: string) => {
      const reach = /[Aa]/.test(piece) ? null : reachOf(piece);
      if (reach === null) return true;
      const { left, top, right, bottom } = reach;
      const isAside = right < x - STROKE || left > x + width + STROKE;
      return !isAside && bottom >= y - STROKE && top <= y + height + STROKE;
    };
    return svg.replace(/<path([^<>]*?) d="(M[^"m]*)"([^<>]*)\/>/g, (_, before, d: string, after) => {
      const seen = d.split(/(?=M)/).filter(isSeen);
      return seen.length > 0 ? `<path${before} d="${seen.join('')}"${after}/>` : '';
    });
  });
}

/** Groups that neither move nor colour what they hold. */
function unwrapped(svg: string): string {
  const open: boolean[] = [];
  return svg.replace(/<g(?: transform="translate\(0,0\)")?>|<g [^<>]*>|<\/g>/g, (tag) => {
    if (tag === '</g>') return open.pop() ? tag : '';
    const isKept = tag !== '<g>' && tag !== '<g transform="translate(0,0)">';
    open.push(isKept);
    return isKept ? tag : '';
  });
}

/** Neighbouring paths of one look are one path; see-through ones would lie doubly on themselves. */
function joined(svg: string): string {
  return svg.replace(RUN_OF_PATHS, (run) => {
    const kept: { d: string; look: string }[] = [];
    for (const [, d = '', look = ''] of run.matchAll(/<path d="([^"]*)"([^<>]*)\/>/g)) {
      const last = kept.at(-1);
      if (last && last.look === look && /^M/.test(d) && !/opacity|class/.test(look)) last.d += d;
      else kept.push({ d, look });
    }
    return kept.map(({ d, look }) => `<path d="${d}"${look}/>`).join('');
  });
}

function shortened(svg: string): string {
  return svg.replace(PATH, (whole, before, d) => {
    const short = shortPath(straightPath(d));
    return short === null || short.length > d.length ? whole : `<path${before} d="${short}"`;
  });
}

/** HTML asks for no quotes around a number. */
function unquoted(svg: string): string {
  return svg.replace(PLACED_WORDS, (tag) => tag.replace(/ (x|y|dy)="(-?[\d.]+)"/g, ' $1=$2'));
}
