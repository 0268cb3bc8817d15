/** On every page, list and station of treatment areas. */

import { en } from '../../shared/strings/report/en.ts';

export const TREATMENT_CAUTION: string = en.cautionTreatment;
