import { ON_TRIPS } from '../../attack/all';
import { testInPart } from '../../support/attacks-in-part';

testInPart(ON_TRIPS);
