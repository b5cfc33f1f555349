/**
 * The one palette, light and dark. Every colour in page and charts is one of these custom properties, so that
 * charts follow dark mode and print, which is always light.
 */

export interface Palette {
  /** Page, and raised parts of it. */
  readonly paper: string;
  readonly panel: string;
  /** Text, and quieter text. */
  readonly ink: string;
  readonly muted: string;
  /** Hair lines. */
  readonly line: string;
  /** The one accent: links, bars. */
  readonly accent: string;
  /** Behind charts: what was asked for; behind the row a link leads to. */
  readonly band: string;
  /** What fails or needs care. Never alone: a word always says it too. */
  readonly alert: string;
}

export const LIGHT: Palette = {
  paper: '#fcfbf8',
  panel: '#f3f1ea',
  ink: '#1b2024',
  muted: '#555d64',
  line: '#d6d2c6',
  accent: '#0d6670',
  band: '#dfe9e4',
  alert: '#9c3412',
};

export const DARK: Palette = {
  paper: '#14181a',
  panel: '#1d2326',
  ink: '#ebe8e0',
  muted: '#a7afb3',
  line: '#3a4347',
  accent: '#62c6cb',
  band: '#26383a',
  alert: '#ffa27a',
};

export function themeCss(): string {
  return [
    `:root{color-scheme:light dark;${properties(LIGHT)}}`,
    `@media (prefers-color-scheme:dark){:root{${properties(DARK)}}}`,
    `@media print{:root{color-scheme:light;${properties({ ...LIGHT, paper: '#ffffff' })}}}`,
  ].join('\n');
}

/** A palette colour for charts. */
export function paint(name: keyof Palette): string {
  return `var(--${name})`;
}

function properties(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';');
}
