/**
 * What a source file says to people: its string literals, templates and JSX texts, read from the syntax tree.
 * Keys, codes, class names, import sources, types and messages of thrown errors are not for people and are left out.
 */

import { parseSync } from 'vite';

export interface Text {
  /** spaces collapsed; an expression inside of a template or between JSX texts stands as … */
  text: string;
  line: number;
}

interface Node {
  type: string;
  start: number;
  [key: string]: unknown;
}

/** JSX attributes whose strings people read or hear. */
const READ_ATTRIBUTES = new Set([
  'title',
  'label',
  'alt',
  'aria-label',
  'aria-description',
  'caption',
  'heading',
  'placeholder',
  'note',
  'text',
  'noun',
]);

/** Attributes whose expressions hold code. */
const UNREAD_ATTRIBUTES = new Set([
  'className',
  'id',
  'key',
  'style',
  'd',
  'transform',
  'href',
  'htmlFor',
]);

/** @throws when the source cannot be parsed */
export function textsOf(path: string, source: string): Text[] {
  const { program, errors } = parseSync(path, source);
  const first = errors[0];
  if (first !== undefined) throw new Error(`${path} cannot be parsed: ${first.message}`);
  const texts: Text[] = [];
  const lineOf = (at: number): number => source.slice(0, at).split('\n').length;
  const put = (text: string, node: Node): void => {
    const collapsed = text.replace(/\s+/g, ' ').trim();
    if (isForPeople(collapsed)) texts.push({ text: collapsed, line: lineOf(node.start) });
  };
  visit(program as unknown as Node);
  return texts;

  function visit(node: Node): void {
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
      case 'ImportExpression':
      case 'ThrowStatement':
      case 'TSTypeAliasDeclaration':
      case 'TSInterfaceDeclaration':
      case 'TSTypeAnnotation':
      case 'TSTypeParameterInstantiation':
        return;
      case 'Literal':
        if (typeof node.value === 'string') put(node.value, node);
        return;
      case 'TemplateLiteral':
        put(templateText(node), node);
        for (const inner of node.expressions as Node[]) visit(inner);
        return;
      case 'JSXAttribute':
        visitAttribute(node);
        return;
      case 'JSXElement':
      case 'JSXFragment':
        visitElement(node);
        return;
      case 'Property':
        if (node.computed === true) visit(node.key as Node);
        visit(node.value as Node);
        return;
      case 'NewExpression':
        // errors that are thrown elsewhere than they are made
        if (/(Error|RangeError)$/.test(String((node.callee as Node).name))) return;
    }
    for (const child of childrenOf(node)) visit(child);
  }

  function visitAttribute(node: Node): void {
    const name = (node.name as Node).name as unknown;
    const value = node.value as Node | null;
    if (value === null) return;
    if (value.type === 'Literal' && !READ_ATTRIBUTES.has(String(name))) return;
    if (!UNREAD_ATTRIBUTES.has(String(name))) visit(value);
  }

  function visitElement(node: Node): void {
    const opening = node.openingElement as Node | undefined;
    if (opening) for (const attribute of opening.attributes as Node[]) visit(attribute);
    let run = '';
    let from: Node | null = null;
    const flush = (): void => {
      if (from !== null) put(run, from);
      run = '';
      from = null;
    };
    for (const child of node.children as Node[]) {
      if (child.type === 'JSXText') {
        run += String(child.value);
        if (String(child.value).trim() !== '') from ??= child;
      } else if (child.type === 'JSXExpressionContainer') {
        const inner = child.expression as Node;
        if (inner.type === 'Literal' && typeof inner.value === 'string') run += inner.value;
        else {
          run += '…';
          visit(inner);
        }
      } else {
        flush();
        visit(child);
      }
    }
    flush();
  }
}

function templateText(node: Node): string {
  return (node.quasis as { value: { cooked: string | null; raw: string } }[])
    .map((q) => q.value.cooked ?? q.value.raw)
    .join('…');
}

function childrenOf(node: Node): Node[] {
  const isNode = (x: unknown): x is Node =>
    typeof x === 'object' && x !== null && typeof (x as { type?: unknown }).type === 'string';
  return Object.values(node).flatMap((value) =>
    Array.isArray(value) ? value.filter(isNode) : isNode(value) ? [value] : [],
  );
}

/**
 * A capital at the beginning, a space between letters, or a word beside an expression; codes, keys, paths, CSS and SVG are
 * written otherwise.
 */
function isForPeople(text: string): boolean {
  if (!/\p{L}{2}/u.test(text)) return false;
  if (/[{}<>=]|^[#./]|^--|https?:|\b(?:var|rgb|calc|translate)\(|\d(?:px|em|fr)\b/.test(text))
    return false;
  return (
    /\p{L}[^\p{L}]* [^\p{L}]*\p{L}/u.test(text) ||
    /^\p{Lu}\p{Ll}/u.test(text) ||
    /… \p{L}{3}|\p{L}{3} …/u.test(text)
  );
}
