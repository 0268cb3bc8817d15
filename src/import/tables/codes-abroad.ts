/**
 * Common words of cells in Spanish, French and German, beside the English ones: as `bare` leaves them, without accents (ß stays).
 * Grain sizes after the same scale in each: limo, limon and Schluff are silt; guijarro, galet and Kiesel are pebbles.
 */

type Words = Record<string, string>;

export const WORDS_ABROAD: Record<
  'design' | 'role' | 'stop' | 'bearing_ref' | 'substrate' | 'plant_cover',
  Words
> = {
  design: {
    belt: 'banda|franja|dos (cabos|cuerdas)|bande|couloir|deux cordes|streifen(transekt)?|zwei seile',
    distance:
      'distancia|linea|un cabo|una cuerda|ligne|une corde|distanz|linien?(transekt)?|ein seil',
  },
  role: {
    primary:
      'primari[oa]|principal|primer[oa]?|primaire|premier|1er|erster?|erste|(beobachter|observador|observateur) 1',
    secondary:
      'secundari[oa]|segund[oa]|secondaire|deuxieme|2e|zweiter?|zweite|(beobachter|observador|observateur) 2',
  },
  stop: {
    rope_end:
      'fin(al)? del? (la )?(cabo|cuerda|linea|transecto)|(bout|fin) (de (la |l )?)?(corde|ligne)|fin du transect|seilende|ende',
    thermocline: 'termoclina|agua fria|eau froide|thermokline|sprungschicht|kaltes wasser',
    obstacle: 'obstaculo|arbol|muelle|arbre|quai|hindernis|baum|steg',
  },
  bearing_ref: {
    magnetic: 'magnetic[oa]|brujula|magnetique|boussole|magnetisch|missweisend|mißweisend|kompass',
    true: 'verdader[oa]|geografic[oa]|vrai|geographique|rechtweisend|geografisch|geographisch',
  },
  substrate: {
    mud: 'fango(so)?|lodo(so)?|barro|arcilla|cieno|vase(ux)?|boue|argile|schlamm(ig)?|schlick|ton',
    silt: 'limo(so)?|limon(eux)?|schluff(ig)?',
    sand: 'arena|arenos[oa]|sable|sableux|sandig|(arena|sable) (fin[ao]?|grues[ao]|grossier)|(fein|grob)sand',
    gravel: 'grava|gravilla|graviers?|gravillons?|kies(ig)?|feinkies',
    pebble:
      'guijarros?|guijas?|cantos?( rodados?)?|galets?|cailloux?|kiesel(steine?)?|grobkies|geroll',
    rock: 'rocas?|rocos[oa]|bloques?|bolos|piedras?|roches?|rochers?|rocheux|blocs?|pierres?|fels(en|ig)?|steine?|steinig|blocke?',
    other:
      'otr[oa]s?|madera|troncos?|conchas?|autres?|bois|coquilles?|andere[rs]?|sonstige[rs]?|holz|schalen|muschelschalen',
  },
  plant_cover: {
    '0': 'ningun[oa]?|nada|sin (plantas|vegetacion)|aucune?|rien|sans (plantes|vegetation)|keine?|ohne|kahl',
    '1': 'escas[oa]s?|poc[oa]s?|ralas?|dispers[oa]s?|eparses?|clairsemee?s?|faible|peu|sparlich|vereinzelt|gering|wenig',
    '2': 'moderad[oa]|medi[oa]|moderee?|moyenn?e?|maßig|massig|mittel',
    '3': 'abundantes?|alta|frecuente|abondante?s?|elevee?|forte|haufig|stark|viel|hoch',
    '4': 'dens[oa]s?|muy (dens|abundante|alt)[ao]?|(tres )?denses?|tres abondante?|dicht|sehr (dicht|stark|viel)|geschlossen',
  },
};
