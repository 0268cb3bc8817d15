/**
 * A picture of the page as an SVG that stands alone: every style written into its elements, letters in generic families,
 * legends of the page drawn along, title above, note and credit line below. Loaded when a picture is saved.
 */

const SVG = 'http://www.w3.org/2000/svg';
const MARGIN_PX = 16;
const TITLE_PX = 17;
const NOTE_PX = 13;
const LEADING = 1.35;
/** Fonts are not sent along: whoever has them sees them, others the general family. */
const SANS = "'Source Sans 3', 'Segoe UI', Arial, sans-serif";
const SERIF = "Literata, Georgia, 'Times New Roman', serif";

/** Of what is drawn, and whether a child inherits it. */
const PROPERTIES: readonly [name: string, inherited: boolean, initial: string][] = [
  ['fill', true, 'rgb(0, 0, 0)'],
  ['fill-opacity', true, '1'],
  ['stroke', true, 'none'],
  ['stroke-opacity', true, '1'],
  ['stroke-width', true, '1px'],
  ['stroke-dasharray', true, 'none'],
  ['stroke-linecap', true, 'butt'],
  ['stroke-linejoin', true, 'miter'],
  ['paint-order', true, 'normal'],
  ['opacity', false, '1'],
  ['font-size', true, ''],
  ['font-weight', true, '400'],
  ['font-style', true, 'normal'],
  ['text-anchor', true, 'start'],
  ['dominant-baseline', true, 'auto'],
];

/** What is not part of a picture on paper. */
const LEFT_OUT = '.visually-hidden, .no-print, details, button, input, table, [role="slider"]';

export interface PictureWords {
  title: string;
  note: string;
  credit: string;
}

export interface SavedPicture {
  svg: string;
  widthPx: number;
  heightPx: number;
}

/** @param body what holds the picture; laid out on the page, so that places and styles can be read */
export function figureSvg(body: HTMLElement, words: PictureWords): SavedPicture {
  const box = body.getBoundingClientRect();
  const page = getComputedStyle(document.documentElement);
  const [ink, quiet, panel] = ['--ink', '--quiet', '--panel'].map((name) =>
    page.getPropertyValue(name).trim(),
  );
  const widthPx = Math.ceil(box.width) + 2 * MARGIN_PX;
  const lineWidth = widthPx - 2 * MARGIN_PX;
  const whole = element('svg', { width: widthPx, 'font-family': SANS });
  const paper = element('rect', { width: '100%', height: '100%', fill: panel });
  whole.append(paper);
  let y = MARGIN_PX;
  const paragraph = (text: string, px: number, fill: string, weight = 400): void => {
    for (const line of linesOf(text, px, weight, lineWidth)) {
      y += px * LEADING;
      const drawn = element('text', {
        x: MARGIN_PX,
        y,
        fill,
        'font-size': px,
        'font-weight': weight,
      });
      drawn.textContent = line;
      whole.append(drawn);
    }
  };
  paragraph(words.title, TITLE_PX, ink, 600);
  y += 10;
  const picture = element('g', { transform: `translate(${MARGIN_PX},${y})` });
  const reach = { bottom: 0 };
  addParts(body, picture, box, reach);
  whole.append(picture);
  y += reach.bottom;
  paragraph(words.note, NOTE_PX, quiet);
  y += 4;
  paragraph(words.credit, NOTE_PX, quiet);
  const heightPx = Math.ceil(y + MARGIN_PX);
  whole.setAttribute('height', String(heightPx));
  whole.setAttribute('viewBox', `0 0 ${widthPx} ${heightPx}`);
  const name = element('title', {});
  name.textContent = words.title;
  whole.prepend(name);
  return { svg: new XMLSerializer().serializeToString(whole), widthPx, heightPx };
}

/** The parts of the page within a node, in their order: drawings, words, and boxes with a colour of their own. */
function addParts(node: Element, into: Element, box: DOMRect, reach: { bottom: number }): void {
  for (const child of node.childNodes) {
    if (child instanceof Text) addText(child, into, box, reach);
    if (!(child instanceof Element) || child.matches(LEFT_OUT)) continue;
    const style = getComputedStyle(child);
    if (style.display === 'none' || style.visibility === 'hidden') continue;
    const at = child.getBoundingClientRect();
    if (child instanceof SVGSVGElement) {
      reach.bottom = Math.max(reach.bottom, at.bottom - box.top);
      into.append(drawing(child, at, box));
      continue;
    }
    addBox(style, at, into, box);
    addParts(child, into, box, reach);
  }
}

function drawing(source: SVGSVGElement, at: DOMRect, box: DOMRect): Element {
  const copy = source.cloneNode(true) as SVGSVGElement;
  writeStyles(source, copy);
  copy.setAttribute('x', String(at.left - box.left));
  copy.setAttribute('y', String(at.top - box.top));
  copy.setAttribute('width', String(at.width));
  copy.setAttribute('height', String(at.height));
  copy.setAttribute('overflow', 'visible');
  return copy;
}

/** What the page's style sheets say of each element, as attributes; only what an element does not inherit anyway. */
function writeStyles(source: Element, copy: Element): void {
  const style = getComputedStyle(source);
  const outer = source instanceof SVGSVGElement;
  const above =
    outer || source.parentElement === null ? null : getComputedStyle(source.parentElement);
  for (const [name, inherited, initial] of PROPERTIES) {
    const value = style.getPropertyValue(name);
    const usual = inherited && above !== null ? above.getPropertyValue(name) : initial;
    if (value === usual) copy.removeAttribute(name);
    else copy.setAttribute(name, plainPaint(value));
  }
  if (style.display === 'none') copy.setAttribute('display', 'none');
  for (const name of [
    'class',
    'style',
    'aria-hidden',
    'focusable',
    'tabindex',
    'role',
    'font-family',
  ])
    copy.removeAttribute(name);
  for (let i = 0; i < source.children.length; i++)
    writeStyles(source.children[i], copy.children[i]);
}

/** Paint as every reader of SVG knows it: a reference within the file, or rgb. */
function plainPaint(value: string): string {
  const mixed = /^color\(srgb ([\d.e-]+) ([\d.e-]+) ([\d.e-]+)(?: \/ ([\d.]+))?\)$/.exec(value);
  if (mixed !== null) {
    const [r, g, b] = mixed.slice(1, 4).map((x) => Math.round(255 * Number(x)));
    return `rgb(${r}, ${g}, ${b})`;
  }
  return value.replace(/^url\("(#[^"]+)"\).*$/, 'url($1)');
}

function addBox(style: CSSStyleDeclaration, at: DOMRect, into: Element, box: DOMRect): void {
  const fill = style.backgroundColor;
  const edge = Number.parseFloat(style.borderTopWidth) > 0 && style.borderTopStyle !== 'none';
  const filled = fill !== 'transparent' && !/, 0\)$/.test(fill);
  if (at.width === 0 || at.height === 0 || (!filled && !edge)) return;
  into.append(
    element('rect', {
      x: at.left - box.left,
      y: at.top - box.top,
      width: at.width,
      height: at.height,
      fill: filled ? plainPaint(fill) : 'none',
      ...(edge ? { stroke: plainPaint(style.borderTopColor) } : {}),
    }),
  );
}

/** Words of the page line by line, where the page has them. */
function addText(node: Text, into: Element, box: DOMRect, reach: { bottom: number }): void {
  const parent = node.parentElement;
  if (parent === null || node.data.trim() === '') return;
  const style = getComputedStyle(parent);
  const px = Number.parseFloat(style.fontSize);
  const range = document.createRange();
  const lines: { text: string; left: number; top: number; bottom: number }[] = [];
  for (const { 0: word, index } of node.data.matchAll(/\S+/g)) {
    range.setStart(node, index);
    range.setEnd(node, index + word.length);
    const at = range.getBoundingClientRect();
    if (at.width === 0) continue;
    const line = lines.at(-1);
    if (line !== undefined && Math.abs(line.top - at.top) < px / 2) line.text += ` ${word}`;
    else lines.push({ text: word, left: at.left, top: at.top, bottom: at.bottom });
  }
  for (const line of lines) {
    reach.bottom = Math.max(reach.bottom, line.bottom - box.top);
    const drawn = element('text', {
      x: line.left - box.left,
      // the baseline of usual letters lies a quarter of their size above the line's lower edge
      y: (line.top + line.bottom) / 2 - box.top + px * 0.34,
      'font-size': px,
      'font-weight': style.fontWeight,
      fill: plainPaint(style.color),
      ...(style.fontFamily.includes('Literata') ? { 'font-family': SERIF } : {}),
    });
    drawn.textContent = line.text;
    into.append(drawn);
  }
}

/** Broken at spaces to the width given. */
function linesOf(text: string, px: number, weight: number, widthPx: number): string[] {
  const pen = document.createElement('canvas').getContext('2d');
  if (pen === null) return [text];
  pen.font = `${weight} ${px}px ${SANS}`;
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && pen.measureText(longer).width <= widthPx)
      lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function element(name: string, attributes: Record<string, string | number>): Element {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes))
    made.setAttribute(
      key,
      typeof value === 'number' ? String(Math.round(value * 100) / 100) : value,
    );
  return made;
}

/** The same drawn at twice its size, or another. Throws where the browser cannot draw it. */
export async function picturePng(
  { svg, widthPx, heightPx }: SavedPicture,
  scale = 2,
): Promise<Uint8Array> {
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = scale * widthPx;
    canvas.height = scale * heightPx;
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error('got no canvas to draw on, expected one');
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (blob === null) throw new Error('got no picture from the canvas, expected a PNG');
    return new Uint8Array(await blob.arrayBuffer());
  } finally {
    URL.revokeObjectURL(url);
  }
}
