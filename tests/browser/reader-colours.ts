/**
 * What of the screen does not take the colours of a contrast theme: drawings in colours that are not the reader's, drawings that
 * cannot be told from the ground, and picked things that look as those beside them.
 */
export function outsideReadersColours(): string[] {
  const probe = document.body.appendChild(document.createElement('span'));
  const told = (color: string) => {
    probe.style.color = color;
    return getComputedStyle(probe).color;
  };
  const names =
    'Canvas CanvasText Highlight HighlightText GrayText LinkText VisitedText ButtonFace ButtonText ButtonBorder Field FieldText Mark MarkText';
  const plain = (colour: string) => colour.replace(/^rgba\((.*), [\d.]+\)$/, 'rgb($1)');
  const readers = new Set(names.split(' ').map((name) => plain(told(name))));
  const canvas = told('Canvas');
  probe.remove();

  const seesThrough = (colour: string) => /^rgba\(.*, 0\)$/.test(colour);
  const groundOf = (node: Element) => {
    for (let at: Element | null = node; at; at = at.parentElement) {
      const { backgroundColor } = getComputedStyle(at);
      if (!seesThrough(backgroundColor)) return plain(backgroundColor);
    }
    return canvas;
  };
  const said = (node: Element) => `${node.tagName} ${node.getAttribute('class') ?? ''}`.trim();
  const findings: string[] = [];
  for (const svg of document.querySelectorAll('svg')) {
    if (!svg.checkVisibility() || svg.getBoundingClientRect().width === 0) continue;
    const colours = [...svg.querySelectorAll('path, line, circle, rect, polyline, polygon, ellipse, text')]
      .filter((shape) => shape.checkVisibility())
      .flatMap((shape) => {
        const { fill, stroke } = getComputedStyle(shape);
        return [fill, stroke].filter((colour) => colour.startsWith('rgb') && !seesThrough(colour));
      });
    const strange = colours.find((colour) => !readers.has(plain(colour)));
    if (strange) findings.push(`${strange} in ${said(svg)} of ${said(svg.parentElement ?? svg)}`);
    if (colours.length > 0 && colours.every((colour) => plain(colour) === groundOf(svg)))
      findings.push(`nothing to be seen of ${said(svg)} of ${said(svg.parentElement ?? svg)}`);
  }

  const look = (node: Element) => {
    const { outlineStyle, backgroundColor, borderColor, borderWidth } = getComputedStyle(node);
    return [outlineStyle, backgroundColor, borderColor, borderWidth].join(' ');
  };
  for (const node of document.querySelectorAll('[aria-pressed=true]')) {
    if (!node.checkVisibility() || node === document.activeElement) continue;
    const beside = [...document.querySelectorAll('[aria-pressed=false]')].find(
      (other) => other.className === node.className && other.parentElement === node.parentElement,
    );
    if (beside && look(beside) === look(node))
      findings.push(`picked looks as not picked: ${node.textContent.trim()}`);
  }
  return [...new Set(findings)].slice(0, 5);
}
