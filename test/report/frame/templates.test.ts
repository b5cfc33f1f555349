import { expect, test } from 'vitest';
import { minify } from '../../../src/report/frame/templates.ts';

test('styles lose comments and blanks, not what stands in quotes', () => {
  const css =
    '/* a */\n.a,\n.b > c:hover {\n  margin: 0 0.5px;\n  font: 1px / 2 a, b;\n}\n@media (width >= 3px) {\n  p::after { content: "a, b; {c} : d"; }\n}\n';
  expect(minify(css)).toBe(
    '.a,.b > c:hover{margin:0 .5px;font:1px / 2 a,b}@media (width >= 3px){p::after{content:"a, b; {c} : d"}}',
  );
});
