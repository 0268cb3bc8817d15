/** Elements of the page that the script stands in. */

/** @throws when there is none of this id: the script stands in another page */
export function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`got no element ${id}, expected one`);
  return element;
}

/** A shape of the drawing; null where the lake has none of it. */
export function shapeById(id: string): SVGGeometryElement | null {
  const element = document.getElementById(id);
  return element instanceof SVGGeometryElement ? element : null;
}
