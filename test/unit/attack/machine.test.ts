import { ON_THE_MACHINE } from '../../attack/all';
import { testInPart } from '../../support/attacks-in-part';

testInPart(ON_THE_MACHINE);
