/** How a layer is drawn, written in two languages: OGC Styled Layer Descriptor 1.0 (02-070), and the QML of a common GIS. */

import { rgbOf } from '../../present/ramp.ts';
import { escapeHtml as escapeXml } from '../html.ts';
import type { LayerStyle } from './geopackage.ts';

/** Which features a rule is for, by one field. */
export type Condition =
  | { field: string; from: number | null; below: number | null }
  | { field: string; equals: string }
  | { field: string; missing: true };

/** Widths and sizes in CSS pixels of 0.28 mm; null = not drawn. */
export type Paint =
  | { kind: 'fill'; fill: string | null; stroke: string; width: number; dashed?: boolean }
  | { kind: 'line'; stroke: string; width: number; dashed?: boolean }
  | { kind: 'mark'; fill: string; stroke: string; width: number; size: number };

export interface StyleRule {
  words: string;
  /** null = all features */
  when: Condition | null;
  paint: Paint;
}

const MM_PER_PIXEL = 0.28;
const DASH = [5, 3];

export function layerStyle(name: string, layer: string, rules: readonly StyleRule[]): LayerStyle {
  return { name, qml: qml(rules), sld: sld(layer, rules) };
}

function sld(layer: string, rules: readonly StyleRule[]): string {
  const body = rules.map(
    ({ words, when, paint }) =>
      `<Rule><Title>${escapeXml(words)}</Title>${when === null ? '' : `<ogc:Filter>${ogcFilter(when)}</ogc:Filter>`}${symbolizer(paint)}</Rule>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<StyledLayerDescriptor version="1.0.0" xmlns="http://www.opengis.net/sld" xmlns:ogc="http://www.opengis.net/ogc"><NamedLayer><Name>${escapeXml(layer)}</Name><UserStyle><FeatureTypeStyle>
${body.join('\n')}
</FeatureTypeStyle></UserStyle></NamedLayer></StyledLayerDescriptor>
`;
}

function ogcFilter(when: Condition): string {
  const name = `<ogc:PropertyName>${escapeXml(when.field)}</ogc:PropertyName>`;
  const than = (what: string, value: string | number) =>
    `<ogc:PropertyIs${what}>${name}<ogc:Literal>${escapeXml(String(value))}</ogc:Literal></ogc:PropertyIs${what}>`;
  if ('missing' in when) return `<ogc:PropertyIsNull>${name}</ogc:PropertyIsNull>`;
  if ('equals' in when) return than('EqualTo', when.equals);
  const limits = [
    ...(when.from === null ? [] : [than('GreaterThanOrEqualTo', when.from)]),
    ...(when.below === null ? [] : [than('LessThan', when.below)]),
  ];
  return limits.length === 1 ? limits.join('') : `<ogc:And>${limits.join('')}</ogc:And>`;
}

function symbolizer(paint: Paint): string {
  const css = (name: string, value: string | number) =>
    `<CssParameter name="${name}">${value}</CssParameter>`;
  const dashes = 'dashed' in paint && paint.dashed ? css('stroke-dasharray', DASH.join(' ')) : '';
  const stroke = `<Stroke>${css('stroke', paint.stroke)}${css('stroke-width', paint.width)}${dashes}</Stroke>`;
  if (paint.kind === 'line') return `<LineSymbolizer>${stroke}</LineSymbolizer>`;
  const fill = paint.fill === null ? '' : `<Fill>${css('fill', paint.fill)}</Fill>`;
  if (paint.kind === 'fill') return `<PolygonSymbolizer>${fill}${stroke}</PolygonSymbolizer>`;
  return `<PointSymbolizer><Graphic><Mark><WellKnownName>circle</WellKnownName>${fill}${stroke}</Mark><Size>${paint.size}</Size></Graphic></PointSymbolizer>`;
}

function qml(rules: readonly StyleRule[]): string {
  const listed = rules.map(
    ({ words, when }, i) =>
      `<rule key="{rule-${i}}" label="${escapeXml(words)}" symbol="${i}"${when === null ? '' : ` filter="${escapeXml(expression(when))}"`}/>`,
  );
  const symbols = rules.map(({ paint }, i) => symbol(String(i), paint));
  return `<!DOCTYPE qgis PUBLIC 'http://mrcc.com/qgis.dtd' 'SYSTEM'>
<qgis version="3.22" styleCategories="Symbology"><renderer-v2 type="RuleRenderer" symbollevels="0" enableorderby="0"><rules key="{rules}">
${listed.join('\n')}
</rules><symbols>
${symbols.join('\n')}
</symbols></renderer-v2><blendMode>0</blendMode><layerOpacity>1</layerOpacity></qgis>
`;
}

function expression(when: Condition): string {
  const field = `"${when.field}"`;
  if ('missing' in when) return `${field} IS NULL`;
  if ('equals' in when) return `${field} = '${when.equals.replaceAll("'", "''")}'`;
  return [
    ...(when.from === null ? [] : [`${field} >= ${when.from}`]),
    ...(when.below === null ? [] : [`${field} < ${when.below}`]),
  ].join(' AND ');
}

const SYMBOL_TYPES = { fill: 'fill', line: 'line', mark: 'marker' } as const;
const SYMBOL_LAYERS = { fill: 'SimpleFill', line: 'SimpleLine', mark: 'SimpleMarker' } as const;

function symbol(name: string, paint: Paint): string {
  const mm = (pixels: number) => Number((pixels * MM_PER_PIXEL).toFixed(2));
  const dash = 'dashed' in paint && paint.dashed ? 'dash' : 'solid';
  const outline = {
    outline_color: rgba(paint.stroke),
    outline_width: mm(paint.width),
    outline_width_unit: 'MM',
    outline_style: dash,
  };
  const properties: Record<string, string | number> =
    paint.kind === 'line'
      ? {
          line_color: rgba(paint.stroke),
          line_width: mm(paint.width),
          line_width_unit: 'MM',
          line_style: dash,
        }
      : paint.kind === 'fill'
        ? {
            color: rgba(paint.fill ?? paint.stroke),
            style: paint.fill === null ? 'no' : 'solid',
            ...outline,
          }
        : {
            name: 'circle',
            color: rgba(paint.fill),
            size: mm(paint.size),
            size_unit: 'MM',
            ...outline,
          };
  const props = Object.entries(properties).map(([k, v]) => `<prop k="${k}" v="${v}"/>`);
  return `<symbol name="${name}" type="${SYMBOL_TYPES[paint.kind]}" alpha="1" clip_to_extent="1"><layer class="${SYMBOL_LAYERS[paint.kind]}" enabled="1" locked="0" pass="0">${props.join('')}</layer></symbol>`;
}

const rgba = (hex: string): string => `${rgbOf(hex).join(',')},255`;
