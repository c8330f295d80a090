import { ON_OTHER_TEXTS } from '../../attack/all';
import { testInPart } from '../../support/attacks-in-part';

testInPart(ON_OTHER_TEXTS);
