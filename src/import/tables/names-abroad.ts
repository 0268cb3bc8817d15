/**
 * Common headers in Spanish, French and German, beside the English ones: without accents, as `words` leaves them (ß stays). A word
 * that means two things, `longitud`, `Breite`, `Länge`, only may be meant: what stands below it decides.
 */

type Names = Record<string, [sure: string, perhaps?: string]>;

const TRANSECT: Names[string] = [
  '(number (de |del |du |des )?|id |codigo (de |del )?)?(transecto|transecta|transecte|transekts?)( (id|number|name))?|transektnummer',
  'linea|ligne|linie|estacion|sitio|standort|inmersion|plongee|tauchgang|nombre|nom|bezeichnung',
];
const ALONG: Names[string] = [
  'distancia( (desde( el)? inicio|a lo largo( del transecto)?))?|distance (depuis (le )?(debut|depart)|le long( du transect)?)|distanz|entfernung( vom start)?|strecke',
  'abstand|marca|marque|marke|posicion|seilmarke|desde|inicio|debut|anfang|beginn|depuis',
];

/** Same kinds and fields as the English names. */
export const NAMES_ABROAD: Record<
  'transects' | 'habitat' | 'detections' | 'planted_shells' | 'points',
  Names
> = {
  transects: {
    transect: TRANSECT,
    date: [
      'fecha( (del? )?(muestreo|buceo|inmersion))?|date d[eu] (la )?(plongee|releve)|datum|tauchdatum|aufnahmedatum',
    ],
    design: ['diseno( del? muestreo)?|plan d echantillonnage', 'metodo|methode|tipo'],
    primary: [
      '(observador|observadora|buzo) (primari[oa]|principal|1)|primer (observador|buzo)|(observateur|plongeur) (primaire|principal|1)|(premier|1er) (observateur|plongeur)|(erster?|1) (beobachter|taucher)|(beobachter|taucher) 1',
      'observador|observadora|buzo|observateur|plongeur|beobachter|taucher',
    ],
    secondary: [
      '(observador|observadora|buzo) (secundari[oa]|2)|segundo (observador|buzo)|(observateur|plongeur) (secondaire|2)|(second|deuxieme|2e) (observateur|plongeur)|(zweiter?|2) (beobachter|taucher)|(beobachter|taucher) 2',
    ],
    observers: [
      'buzos|observadores|equipo( de buceo)?|plongeurs|observateurs|equipe( de plongee)?|tauchteam|tauchpaar',
    ],
    start_lat: [
      '(lat|latitud) (de )?(inicio|inicial|comienzo)|(inicio|inicial) (lat|latitud)|(lat|latitude) (du |de )?(debut|depart)|(debut|depart) (lat|latitude)|(start|anfangs?) ?(breite|breitengrad)|(breite|breitengrad) (start|anfang|beginn)',
      'latitud|breite|breitengrad|hochwert|norte|nord',
    ],
    start_lon: [
      '(lon|long|longitud) (de )?(inicio|inicial|comienzo)|(inicio|inicial) (lon|long|longitud)|(lon|long|longitude) (du |de )?(debut|depart)|(debut|depart) (lon|long|longitude)|(start|anfangs?) ?(lange|langengrad)|(lange|langengrad) (start|anfang|beginn)',
      'longitud|lange|langengrad|rechtswert|este',
    ],
    end_lat: [
      '(lat|latitud) (de )?(fin|final)|(fin|final) (lat|latitud)|(lat|latitude) (de |d |de l )?(fin|arrivee)|(fin|arrivee) (lat|latitude)|(end|ziel) ?(breite|breitengrad)|(breite|breitengrad) (ende|ziel)|ende (breite|breitengrad)',
    ],
    end_lon: [
      '(lon|long|longitud) (de )?(fin|final)|(fin|final) (lon|long|longitud)|(lon|long|longitude) (de |d |de l )?(fin|arrivee)|(fin|arrivee) (lon|long|longitude)|(end|ziel) ?(lange|langengrad)|(lange|langengrad) (ende|ziel)|ende (lange|langengrad)',
    ],
    bearing_deg: [
      'rumbo( (magnetico|verdadero))?|azimut|cap (magnetique|vrai)|peilung|kompasskurs',
      'cap|kurs|direccion|richtung|brujula|boussole|kompass',
    ],
    length_m: [
      '(longitud|largo) del? (la )?(transecto|cuerda|cabo|linea)|longueur( (du|de la) (transect|corde|ligne))?|(transekt|seil)lange',
      'longitud|largo|lange|cuerda|corde|seil',
    ],
    width_m: [
      'ancho( (del transecto|de busqueda|total))?|anchura|largeur( (du transect|de recherche|totale))?|(transekt|such|streifen)breite',
      'breite',
    ],
    clarity_m: [
      'visibilidad( horizontal)?|visibilite( horizontale)?|sichtweite|sicht',
      'transparencia( del agua)?|transparence( de l eau)?|sichttiefe',
    ],
    stop: [
      'motivo (de |del )(fin|final|parada|termino)|(raison|motif) (de l |de |d )?(arret|fin)|abbruchgrund|grund (des|fur das) ende',
      'motivo|razon|raison|motif|grund|fin|final|ende',
    ],
    setup_min: [
      'tiempo de (preparacion|montaje|instalacion|tendido)|temps (de |d )?(preparation|installation|pose|mise en place)|(aufbau|lege|vorbereitungs)zeit',
    ],
    habitat_min: ['tiempo (de |del )?habitat|temps (de l |d |de )?habitat|habitatzeit'],
    search_min: [
      'tiempo de busqueda|temps de recherche|such(zeit|dauer)',
      'tiempo|temps|zeit|dauer|duracion|duree|minutos|minuten',
    ],
    notes: [
      'notas?|observaciones|comentarios?|remarques?|commentaires?|bemerkung(en)?|anmerkung(en)?|notiz(en)?|kommentare?',
    ],
  },
  habitat: {
    transect: TRANSECT,
    distance_m: ALONG,
    substrate: [
      '(tipo (de |del )?|type (de |du )?)?(sustrato|substrato|substrat)( (primario|principal|dominante?|primaire|1))?|tipo de fondo|(nature|type) (de |du )fond|sedimentos?|bodentyp|untergrund|seegrund|gewassergrund',
      'fondo|fond|boden|grund|clase|classe|klasse|material',
    ],
    substrate_2: [
      '(sustrato|substrato|substrat) (secundario|secondaire|2)|(zweites|sekundares) substrat|nebensubstrat',
    ],
    plant_cover: [
      'cobertura( (vegetal|de (plantas|vegetacion|macrofitas)))?|(couverture|recouvrement)( (vegetale?|(de |des |par )?(plantes|vegetation|macrophytes)))?|(pflanzen)?(deckung|deckungsgrad|bedeckung)|bewuchs|plantas|plantes|pflanzen|vegetacion|macrofitas|makrophyten',
      'algas|algues|algen|wasserpflanzen|hierbas|herbier',
    ],
    depth_m: ['profundidad( del agua)?|profondeur( (de l )?eau)?|(wasser)?tiefe', 'prof'],
  },
  detections: {
    transect: TRANSECT,
    role: [
      'rol( del (observador|buzo))?|role (de l observateur|du plongeur)|rolle( des (beobachters|tauchers))?|visto por|vu par|gesehen von',
      'observador|observadora|observateur|beobachter|buzo|plongeur|taucher',
    ],
    distance_m: ALONG,
    offset_m: [
      'distancia (perpendicular|lateral|al? (la )?(cabo|cuerda|linea|transecto))|distance (perpendiculaire|laterale|(a|au) (la )?(corde|ligne|transect))|ecart( lateral)?|(quer|seiten)abstand|(seitlicher|senkrechter) abstand|abstand (vom|zum) (seil|transekt)',
      'abstand|desplazamiento|versatz',
    ],
    count: [
      '((number|cantidad|nombre) (de |d )?)?(mejillones|moules|muscheln)|(number|cantidad|nombre) (de |d )(individuos|individus|animales|animaux)|conteo|recuento|cantidad|comptage|effectif|anzahl( (der )?(muscheln|tiere|individuen))?|muschelzahl',
      'nombre|zahl|individuos|individus|individuen',
    ],
    cluster_length_cm: [
      '(longitud|largo) del? (grupo|racimo|agregado|parche)|longueur (de la |de l |du )(grappe|agregat|groupe|amas)|(gruppen|haufen|klumpen)lange',
      'longitud|largo|longueur|lange',
    ],
    cluster_width_cm: [
      'ancho del? (grupo|racimo|agregado|parche)|largeur (de la |de l |du )(grappe|agregat|groupe|amas)|(gruppen|haufen|klumpen)breite',
      'ancho|largeur|breite',
    ],
  },
  planted_shells: {
    transect: TRANSECT,
    planted: [
      '(number (de )?)?(conchas|valvas) (colocadas|sembradas|plantadas|puestas)|(number (de )?)?coquilles (posees|placees|deposees)|(number )?(ausgelegte|ausgebrachte|gesetzte) (muschel)?schalen|(muschel)?schalen (ausgelegt|ausgebracht|gesetzt)',
      'colocadas|sembradas|posees|placees|ausgelegt|ausgebracht',
    ],
    found_first: [
      'encontradas (por )?(el |la )?(primer[oa]?|primari[oa]|1)( (observador|buzo))?|trouvees (par )?(le )?(premier|1er|primaire|1)( (observateur|plongeur))?|gefunden (vom |von )?(ersten|erster|1)( (beobachter|taucher))?',
    ],
    found_second_only: [
      '(solo )?encontradas (solo )?(por )?(el |la )?(segund[oa]|secundari[oa]|2)( (observador|buzo))?|(seulement )?trouvees (seulement )?(par )?(le )?(second|deuxieme|2e|secondaire|2)( (observateur|plongeur))?|(nur )?gefunden (nur )?(vom |von )?(zweiten|zweiter|2)( (beobachter|taucher))?',
    ],
  },
  points: {
    lat: ['latitud|breitengrad|hochwert|geogr breite', 'breite|norte|norden|nord'],
    lon: ['langengrad|rechtswert|geogr lange', 'longitud|lange|este|osten|est|ost'],
    pair: ['coordenadas?|coordonnees?|koordinaten?', 'posicion|ubicacion|emplacement'],
  },
};
