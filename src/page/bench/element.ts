/** Building and changing the page, a node at a time: text always as text, never as markup. */

type Children = readonly (Node | string)[];
type Attributes = Readonly<Record<string, string | number | boolean>>;

/** `true` sets an attribute without a value, `false` leaves it out. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Children
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

export function svgElement<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Children
): SVGElementTagNameMap[K] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

export function setAttributes(target: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    const text = value === true ? '' : String(value);
    if (value === false) target.removeAttribute(name);
    else if (target.getAttribute(name) !== text) target.setAttribute(name, text);
  }
}

/** The lines as the items of a list; false where it shows them already. */
export function setItems(list: HTMLElement, lines: readonly string[]): boolean {
  if ([...list.children].map((item) => item.textContent).join('\n') === lines.join('\n')) return false;
  list.replaceChildren(...lines.map((line) => element('li', {}, line)));
  return true;
}

/** Written only where it differs, so that nothing is laid out anew for nothing. */
export function setText(target: Element, text: string): void {
  if (target.textContent !== text) target.textContent = text;
}
