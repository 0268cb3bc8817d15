/** On every page and list of treatment areas. */
export const TREATMENT_CAUTION =
  'Treatment: this is a planning aid, not a prescription. Labels and permits rule, licensed applicators set the dose, and native mussels and other animals can be harmed.';
