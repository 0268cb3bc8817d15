/** Lists spread into a call of a built-in function: a call takes only some 100,000 arguments, and surveys have more rows. */

import { parseSync } from 'vite';

interface Node {
  type: string;
  start: number;
  end: number;
  [key: string]: unknown;
}

/** Methods that take any number of arguments; all functions of Math count as well. */
const TAKES_ANY = new Set([
  ...['push', 'unshift', 'splice', 'concat', 'apply'],
  ...['of', 'assign', 'fromCharCode', 'fromCodePoint', 'append'],
]);

/**
 * The calls as they are written, with their lines, in which a list of any length stands for arguments. A list that is
 * written out in the call, `[a, ...(b ? [c] : [])]`, is not longer than its source.
 * @throws when the source cannot be parsed
 */
export function spreadsOf(path: string, source: string): string[] {
  const { program, errors } = parseSync(path, source);
  const first = errors[0];
  if (first !== undefined) throw new Error(`${path}: ${first.message}`);
  const found: string[] = [];
  visit(program, (node) => {
    if (!isCall(node) || !takesAny(node.callee, source)) return;
    if (!node.arguments.some((a) => a.type === 'SpreadElement' && isOpen(a.argument as Node)))
      return;
    const line = source.slice(0, node.start).split('\n').length;
    found.push(`${path}:${line} ${source.slice(node.start, node.end).replace(/\s+/g, ' ')}`);
  });
  return found;
}

function isCall(node: Node): node is Node & { callee: Node; arguments: Node[] } {
  return node.type === 'CallExpression';
}

function takesAny(callee: Node, source: string): boolean {
  if (callee.type !== 'MemberExpression') return false;
  const object = callee.object as Node;
  const property = callee.property as Node;
  if (source.slice(object.start, object.end) === 'Math') return true;
  return TAKES_ANY.has(source.slice(property.start, property.end));
}

/** Whether it may be of any length: all but an array that is written out of single things. */
function isOpen(list: Node): boolean {
  if (list.type === 'ParenthesizedExpression') return isOpen(list.expression as Node);
  if (list.type === 'ConditionalExpression')
    return isOpen(list.consequent as Node) || isOpen(list.alternate as Node);
  if (list.type !== 'ArrayExpression') return true;
  return (list.elements as (Node | null)[]).some(
    (e) => e?.type === 'SpreadElement' && isOpen(e.argument as Node),
  );
}

function visit(node: object, see: (node: Node) => void): void {
  if (isNode(node)) see(node);
  for (const value of Object.values(node))
    for (const child of Array.isArray(value) ? value : [value])
      if (typeof child === 'object' && child !== null) visit(child, see);
}

function isNode(value: object): value is Node {
  return 'type' in value && 'start' in value && 'end' in value;
}
