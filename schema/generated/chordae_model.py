# Written by schema/generate.py from schema/*.yaml; never edit it.
from __future__ import annotations

import re
import sys
from datetime import (
    date,
    datetime,
    time
)
from decimal import Decimal
from enum import Enum
from typing import (
    Annotated,
    Any,
    ClassVar,
    Literal,
    Optional,
    Union
)

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    RootModel,
    SerializationInfo,
    SerializerFunctionWrapHandler,
    field_validator,
    model_serializer
)


metamodel_version = "1.12.0"
version = "0.1.0"


class ConfiguredBaseModel(BaseModel):
    model_config = ConfigDict(
        serialize_by_alias = True,
        validate_by_name = True,
        validate_assignment = True,
        validate_default = True,
        extra = "forbid",
        arbitrary_types_allowed = True,
        use_enum_values = True,
        strict = False,
    )





class LinkMLMeta(RootModel):
    root: dict[str, Any] = {}
    model_config = ConfigDict(frozen=True)

    def __getattr__(self, key:str):
        return getattr(self.root, key)

    def __getitem__(self, key:str):
        return self.root[key]

    def __setitem__(self, key:str, value):
        self.root[key] = value

    def __contains__(self, key:str) -> bool:
        return key in self.root


linkml_meta = None

class ObservationStateEnum(str, Enum):
    """
    State of an observation; silence is a fifth case and has no value.
    """
    present = "present"
    """
    The structure or feature was looked for and found.
    """
    absent = "absent"
    """
    The structure or feature was looked for, could be judged, and was not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PresenceEnum(str, Enum):
    """
    Whether a feature was found.
    """
    present = "present"
    """
    The feature was looked for and found.
    """
    absent = "absent"
    """
    The feature was looked for, could be judged, and was not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AssessabilityReasonEnum(str, Enum):
    """
    Why something could not be judged.
    """
    removed_at_surgery = "removed_at_surgery"
    """
    Taken out or replaced during an operation in life.
    """
    removed_at_dissection = "removed_at_dissection"
    """
    Cut away when the specimen was opened or taken out.
    """
    transected = "transected"
    """
    Cut across, so that its continuation is lost.
    """
    damaged = "damaged"
    """
    Torn, dried, decayed or worn.
    """
    obscured = "obscured"
    """
    Hidden by a patch, conduit, thrombus, mount or other tissue.
    """
    not_in_material = "not_in_material"
    """
    Belongs to a part of the body that was not kept with the specimen.
    """


class CertaintyEnum(str, Enum):
    """
    How sure the observer was.
    """
    certain = "certain"
    """
    The observer had no doubt.
    """
    probable = "probable"
    """
    The observer thought it likely and said so.
    """
    possible = "possible"
    """
    The observer could not exclude another reading.
    """


class SideEnum(str, Enum):
    """
    Side of the body, or the place of a structure that has no side.
    """
    right_sided = "right_sided"
    """
    On the right side of the body, whatever the morphology.
    """
    left_sided = "left_sided"
    """
    On the left side of the body, whatever the morphology.
    """
    midline = "midline"
    """
    In the midline of the body.
    """
    common = "common"
    """
    Shared by both sides.
    """
    solitary = "solitary"
    """
    The only one of its kind in this heart.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class EvidenceKindEnum(str, Enum):
    """
    Sort of evidence.
    """
    photograph = "photograph"
    """
    A still picture.
    """
    video = "video"
    """
    A moving picture, or some seconds of it.
    """
    scan = "scan"
    """
    A volume from computed tomography or magnetic resonance of the specimen.
    """
    drawing = "drawing"
    """
    A drawing made from the specimen.
    """
    report = "report"
    """
    Words of a report made by others, such as an autopsy report.
    """
    histology = "histology"
    """
    A section seen under the microscope.
    """


class QuantityEnum(str, Enum):
    """
    What was measured.
    """
    weight = "weight"
    """
    Weight of the heart after clots were removed.
    """
    length = "length"
    """
    Distance between two named points.
    """
    width = "width"
    """
    Distance across.
    """
    diameter = "diameter"
    """
    Distance across a round opening or vessel.
    """
    circumference = "circumference"
    """
    Length around an opening.
    """
    wall_thickness = "wall_thickness"
    """
    Thickness of the wall of a chamber.
    """
    area = "area"
    """
    Surface of an opening.
    """
    hinge_offset = "hinge_offset"
    """
    Distance between the septal hinges of the two atrioventricular valves, towards the apex.
    """
    z_score = "z_score"
    """
    Number of standard deviations from a reference.
    """
    age_days = "age_days"
    """
    Age after birth in days.
    """
    gestational_weeks = "gestational_weeks"
    """
    Weeks of gestation.
    """


class MaterialStateEnum(str, Enum):
    """
    State of the tissue.
    """
    fresh = "fresh"
    """
    Not yet in any fixative.
    """
    formalin_fixed = "formalin_fixed"
    """
    Fixed in formaldehyde solution.
    """
    alcohol = "alcohol"
    """
    Kept in alcohol.
    """
    glycerin = "glycerin"
    """
    Kept in glycerin.
    """
    wax_infiltrated = "wax_infiltrated"
    """
    Infiltrated with wax.
    """
    plastinated = "plastinated"
    """
    Plastinated.
    """
    dry = "dry"
    """
    Dried.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class MaterialEnum(str, Enum):
    """
    How much of the body was kept.
    """
    whole_body = "whole_body"
    """
    The whole body was available.
    """
    thoracic_and_abdominal_organs = "thoracic_and_abdominal_organs"
    """
    Organs of chest and belly together.
    """
    heart_lung_block = "heart_lung_block"
    """
    Heart, lungs, trachea and thoracic aorta in one piece.
    """
    isolated_heart = "isolated_heart"
    """
    The heart alone.
    """
    heart_slices = "heart_slices"
    """
    The heart cut into slices.
    """
    heart_part = "heart_part"
    """
    A part of a heart.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PreparationEnum(str, Enum):
    """
    What was done to the specimen.
    """
    intact = "intact"
    """
    Not opened.
    """
    opened_along_flow = "opened_along_flow"
    """
    Opened along the flow of blood.
    """
    window_dissection = "window_dissection"
    """
    Opened through windows in the walls.
    """
    sliced = "sliced"
    """
    Cut into parallel slices.
    """
    sections_taken = "sections_taken"
    """
    Blocks were taken for histology.
    """
    injected = "injected"
    """
    Vessels or chambers were filled with a setting mass.
    """


class AgeGroupEnum(str, Enum):
    """
    Age at death as a coarse group.
    """
    fetus = "fetus"
    """
    Before birth.
    """
    neonate = "neonate"
    """
    From birth to 28 days.
    """
    infant = "infant"
    """
    Up to one year.
    """
    child = "child"
    """
    From one year to eleven years.
    """
    adolescent = "adolescent"
    """
    From twelve to seventeen years.
    """
    adult = "adult"
    """
    From eighteen years.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SexEnum(str, Enum):
    """
    Sex as recorded.
    """
    female = "female"
    """
    Recorded as female.
    """
    male = "male"
    """
    Recorded as male.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ConsentEnum(str, Enum):
    """
    Ground on which the specimen is kept.
    """
    written_consent = "written_consent"
    """
    Written consent.
    """
    post_mortem_consent = "post_mortem_consent"
    """
    Consent given for the post-mortem examination.
    """
    coroner = "coroner"
    """
    By order of a coroner or similar authority.
    """
    historic = "historic"
    """
    Held before present law; no paper kept.
    """
    unknown_consent = "unknown_consent"
    """
    Not known.
    """


class ConsentScopeEnum(str, Enum):
    """
    Uses that the consent covers.
    """
    teaching = "teaching"
    """
    Teaching.
    """
    research = "research"
    """
    Research.
    """
    images = "images"
    """
    Making and showing of images.
    """
    public_display = "public_display"
    """
    Public display.
    """
    three_dimensional_models = "three_dimensional_models"
    """
    Scans and printed models.
    """
    loan = "loan"
    """
    Loan to others.
    """


class CardiacPositionEnum(str, Enum):
    """
    Place of the heart in the chest.
    """
    left_sided = "left_sided"
    """
    The bulk of the heart lies in the left chest.
    """
    right_sided = "right_sided"
    """
    The bulk of the heart lies in the right chest.
    """
    midline = "midline"
    """
    The heart lies in the midline.
    """
    extrathoracic = "extrathoracic"
    """
    The heart lies outside the chest.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ApexEnum(str, Enum):
    """
    Direction of the apex.
    """
    left = "left"
    """
    The apex points to the left.
    """
    right = "right"
    """
    The apex points to the right.
    """
    midline = "midline"
    """
    The apex points down the midline.
    """
    inferior = "inferior"
    """
    The apex points downwards.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class BronchusEnum(str, Enum):
    """
    Morphology of a main bronchus.
    """
    morphologically_right = "morphologically_right"
    """
    Short before its first branch, as the bronchus of a trilobed lung.
    """
    morphologically_left = "morphologically_left"
    """
    Long before its first branch, as the bronchus of a bilobed lung.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OrganArrangementEnum(str, Enum):
    """
    Arrangement of organs with right and left forms.
    """
    usual = "usual"
    """
    Each organ as most often found.
    """
    mirror_image = "mirror_image"
    """
    Each organ as the mirror image of the usual.
    """
    right_isomerism = "right_isomerism"
    """
    Right forms on both sides.
    """
    left_isomerism = "left_isomerism"
    """
    Left forms on both sides.
    """
    mixed = "mixed"
    """
    No one pattern.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OrganSideEnum(str, Enum):
    """
    Side of an abdominal organ.
    """
    right_sided = "right_sided"
    """
    On the right.
    """
    left_sided = "left_sided"
    """
    On the left.
    """
    midline = "midline"
    """
    In the midline.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SpleenEnum(str, Enum):
    """
    Number and place of the spleen.
    """
    left_sided = "left_sided"
    """
    One spleen on the left.
    """
    right_sided = "right_sided"
    """
    One spleen on the right.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    multiple = "multiple"
    """
    Several spleens.
    """
    other = "other"
    """
    Another form, described in the note.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class GutRotationEnum(str, Enum):
    """
    Rotation of the gut.
    """
    normal = "normal"
    """
    Usual rotation.
    """
    malrotated = "malrotated"
    """
    Incomplete or reversed rotation.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CavalAorticRelationEnum(str, Enum):
    """
    Relation of aorta and inferior caval vein at the diaphragm.
    """
    usual = "usual"
    """
    Caval vein to the right, aorta to the left of the spine.
    """
    mirror_image = "mirror_image"
    """
    Caval vein to the left, aorta to the right of the spine.
    """
    same_side = "same_side"
    """
    Both on one side of the spine.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ArrangementSourceEnum(str, Enum):
    """
    Where the statement comes from.
    """
    seen_in_specimen = "seen_in_specimen"
    """
    Seen in the material kept.
    """
    autopsy_report = "autopsy_report"
    """
    Taken from a report on the body.
    """
    clinical_report = "clinical_report"
    """
    Taken from a report made in life.
    """


class CavalDrainageEnum(str, Enum):
    """
    Where the left superior caval vein ends.
    """
    coronary_sinus = "coronary_sinus"
    """
    In the coronary sinus.
    """
    roof_of_left_sided_atrium = "roof_of_left_sided_atrium"
    """
    In the roof of the left-sided atrium.
    """
    right_sided_atrium = "right_sided_atrium"
    """
    In the right-sided atrium by another way.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class InferiorCavalVeinEnum(str, Enum):
    """
    Course of the inferior caval vein.
    """
    continuous = "continuous"
    """
    Reaches the heart.
    """
    interrupted = "interrupted"
    """
    Suprarenal part absent, with continuation through the azygos system.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AtrialSideEnum(str, Enum):
    """
    Atrium by its side.
    """
    right_sided_atrium = "right_sided_atrium"
    """
    The atrium on the right side.
    """
    left_sided_atrium = "left_sided_atrium"
    """
    The atrium on the left side.
    """
    both_atria = "both_atria"
    """
    Both.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CoronarySinusEnum(str, Enum):
    """
    State of the coronary sinus.
    """
    present = "present"
    """
    Present with its walls.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    unroofed = "unroofed"
    """
    Its wall to the left atrium is deficient.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PulmonaryVenousConnectionEnum(str, Enum):
    """
    Connection of the pulmonary veins.
    """
    normal = "normal"
    """
    All join the morphologically left atrium by their own orifices.
    """
    partially_anomalous = "partially_anomalous"
    """
    Some, not all, join elsewhere.
    """
    totally_anomalous = "totally_anomalous"
    """
    None joins the morphologically left atrium.
    """
    anomalous_with_isomerism = "anomalous_with_isomerism"
    """
    Join an atrium in an anatomically anomalous way because no morphologically left atrium exists.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AnomalousVenousSiteEnum(str, Enum):
    """
    Site of anomalous connection.
    """
    supracardiac = "supracardiac"
    """
    To a vein above the heart.
    """
    cardiac = "cardiac"
    """
    To the right atrium or coronary sinus.
    """
    infracardiac = "infracardiac"
    """
    To a vein below the diaphragm.
    """
    mixed = "mixed"
    """
    At more than one level.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class DividedAtriumEnum(str, Enum):
    """
    Atrium divided by a shelf.
    """
    left = "left"
    """
    The left atrium is divided.
    """
    right = "right"
    """
    The right atrium is divided.
    """
    none = "none"
    """
    Looked for and not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AppendageShapeEnum(str, Enum):
    """
    Shape of an appendage.
    """
    triangular = "triangular"
    """
    Broad-based and triangular.
    """
    tubular = "tubular"
    """
    Narrow, tubular, often hooked.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AppendageJunctionEnum(str, Enum):
    """
    Mouth of an appendage.
    """
    broad = "broad"
    """
    Broad, without constriction.
    """
    narrow = "narrow"
    """
    Narrow.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PectinateExtentEnum(str, Enum):
    """
    Extent of the pectinate muscles.
    """
    to_crux = "to_crux"
    """
    They reach all round the vestibule to the crux.
    """
    confined_to_appendage = "confined_to_appendage"
    """
    They stay within the appendage and the vestibule is smooth to the crux.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AppendageMorphologyEnum(str, Enum):
    """
    Morphology of an appendage.
    """
    morphologically_right = "morphologically_right"
    """
    Has the features of a morphologically right appendage.
    """
    morphologically_left = "morphologically_left"
    """
    Has the features of a morphologically left appendage.
    """
    indeterminate = "indeterminate"
    """
    Seen, and its features do not allow a name.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AppendagePositionEnum(str, Enum):
    """
    Place of an appendage.
    """
    usual = "usual"
    """
    On its own side of the trunks.
    """
    juxtaposed = "juxtaposed"
    """
    Beside the other appendage, on one side of the trunks.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AtrialIdentityEnum(str, Enum):
    """
    Identity of an atrium.
    """
    morphologically_right_atrium = "morphologically_right_atrium"
    """
    Has the deciding features of a morphologically right atrium.
    """
    morphologically_left_atrium = "morphologically_left_atrium"
    """
    Has the deciding features of a morphologically left atrium.
    """
    common_atrium = "common_atrium"
    """
    One atrial cavity without septum.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SeptalIntegrityEnum(str, Enum):
    """
    Whether a septum is whole.
    """
    intact = "intact"
    """
    No hole was found.
    """
    deficient = "deficient"
    """
    There is at least one hole.
    """
    absent = "absent"
    """
    There is no septum.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class InteratrialLocationEnum(str, Enum):
    """
    Where a hole between the atria lies.
    """
    oval_fossa = "oval_fossa"
    """
    Within the oval fossa.
    """
    patent_oval_foramen = "patent_oval_foramen"
    """
    Between the flap and the rim, both being sufficient.
    """
    primum = "primum"
    """
    Next to the atrioventricular junction, as part of an atrioventricular septal defect.
    """
    superior_sinus_venosus = "superior_sinus_venosus"
    """
    Outside the oval fossa, in the mouth of the superior caval vein.
    """
    inferior_sinus_venosus = "inferior_sinus_venosus"
    """
    Outside the oval fossa, in the mouth of the inferior caval vein.
    """
    coronary_sinus = "coronary_sinus"
    """
    Through the mouth of an unroofed coronary sinus.
    """
    vestibular = "vestibular"
    """
    In the muscular anteroinferior rim of the oval fossa.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CommunicationPatencyEnum(str, Enum):
    """
    Whether a hole is open as found.
    """
    open = "open"
    """
    Open.
    """
    closed_by_patch = "closed_by_patch"
    """
    Closed by a patch or stitches put in at operation.
    """
    closed_spontaneously = "closed_spontaneously"
    """
    Closed by tissue of the heart itself.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class JunctionPatternEnum(str, Enum):
    """
    Pattern of the junctions.
    """
    separate = "separate"
    """
    Two junctions, each with its own hinge.
    """
    common = "common"
    """
    One junction shared by both atria.
    """
    solitary = "solitary"
    """
    Only one junction, the other being absent.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ValvarOrificesEnum(str, Enum):
    """
    How the junctions are guarded.
    """
    two_valves = "two_valves"
    """
    Two separate valves.
    """
    common_orifice = "common_orifice"
    """
    A common valve with one orifice.
    """
    separate_orifices = "separate_orifices"
    """
    A common junction with a tongue of tissue that makes two orifices.
    """
    one_valve = "one_valve"
    """
    One valve, the other junction being absent.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class HingeOffsetEnum(str, Enum):
    """
    Which septal hinge lies nearer the apex.
    """
    usual = "usual"
    """
    The hinge of the valve of the morphologically right ventricle.
    """
    level = "level"
    """
    Neither; both hinges at one level.
    """
    reversed = "reversed"
    """
    The hinge of the valve of the morphologically left ventricle.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OutletInletEnum(str, Enum):
    """
    Outlet compared with inlet.
    """
    equal = "equal"
    """
    Equal lengths.
    """
    outlet_longer = "outlet_longer"
    """
    The outlet is longer.
    """
    inlet_longer = "inlet_longer"
    """
    The inlet is longer.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class VentricularBalanceEnum(str, Enum):
    """
    How a common junction is shared.
    """
    balanced = "balanced"
    """
    Shared about equally.
    """
    right_dominant = "right_dominant"
    """
    Mostly over the morphologically right ventricle.
    """
    left_dominant = "left_dominant"
    """
    Mostly over the morphologically left ventricle.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class FloorTissueEnum(str, Enum):
    """
    Tissue in the floor of a blind atrium.
    """
    muscular = "muscular"
    """
    Muscle only.
    """
    fibrofatty = "fibrofatty"
    """
    Fibrofatty tissue of the atrioventricular groove between atrium and ventricle.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ValveTypeEnum(str, Enum):
    """
    Name of an atrioventricular valve.
    """
    tricuspid = "tricuspid"
    """
    Valve of the morphologically right ventricle in separate junctions.
    """
    mitral = "mitral"
    """
    Valve of the morphologically left ventricle in separate junctions.
    """
    common = "common"
    """
    One valve that guards a common junction.
    """
    right_atrioventricular = "right_atrioventricular"
    """
    Valve named by its right side only.
    """
    left_atrioventricular = "left_atrioventricular"
    """
    Valve named by its left side only.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ValvePatencyEnum(str, Enum):
    """
    Whether blood could pass.
    """
    patent = "patent"
    """
    Open.
    """
    imperforate = "imperforate"
    """
    Valvar tissue closes a junction or root that exists.
    """
    replaced = "replaced"
    """
    Native valve replaced by a prosthesis.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class LeafletEnum(str, Enum):
    """
    State of a leaflet.
    """
    normal = "normal"
    """
    Found, hinged at the junction, of usual form.
    """
    displaced = "displaced"
    """
    Hinged away from the junction, towards the apex.
    """
    dysplastic = "dysplastic"
    """
    Thickened, knotted or ill formed.
    """
    tethered = "tethered"
    """
    Held to the wall by short cords.
    """
    cleft = "cleft"
    """
    Divided by a cleft.
    """
    fused = "fused"
    """
    Joined to its neighbour.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PapillaryPatternEnum(str, Enum):
    """
    Pattern of papillary muscles.
    """
    paired = "paired"
    """
    Two papillary muscles, or two groups.
    """
    multiple_small = "multiple_small"
    """
    Several small muscles.
    """
    single_group = "single_group"
    """
    All cords to one muscle or group.
    """
    arcade = "arcade"
    """
    Muscles join the leaflet edge directly.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class StraddlingDegreeEnum(str, Enum):
    """
    Degree of straddling.
    """
    near_crest = "near_crest"
    """
    Attached near the crest of the septum.
    """
    along_septum = "along_septum"
    """
    Attached along the far side of the septum.
    """
    far_wall = "far_wall"
    """
    Attached to the far wall of the other ventricle.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class RastelliEnum(str, Enum):
    """
    Form of the superior bridging leaflet.
    """
    A = "A"
    """
    Attached to the crest; little bridging.
    """
    B = "B"
    """
    Attached to an anomalous papillary muscle in the right ventricle.
    """
    C = "C"
    """
    Free floating; extreme bridging.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class VentriclePositionEnum(str, Enum):
    """
    Where a ventricle lies with respect to the other.
    """
    right_sided = "right_sided"
    """
    To the right.
    """
    left_sided = "left_sided"
    """
    To the left.
    """
    anterior = "anterior"
    """
    In front.
    """
    posterior = "posterior"
    """
    Behind.
    """
    superior = "superior"
    """
    Above.
    """
    inferior = "inferior"
    """
    Below.
    """


class VentricularIdentityEnum(str, Enum):
    """
    Identity of a ventricle.
    """
    morphologically_right_ventricle = "morphologically_right_ventricle"
    """
    Has the apical trabeculations of a morphologically right ventricle.
    """
    morphologically_left_ventricle = "morphologically_left_ventricle"
    """
    Has the apical trabeculations of a morphologically left ventricle.
    """
    solitary_indeterminate_ventricle = "solitary_indeterminate_ventricle"
    """
    The only ventricle, with trabeculations of neither kind.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ApicalTrabeculationEnum(str, Enum):
    """
    Character of the apical trabeculations.
    """
    coarse = "coarse"
    """
    Coarse.
    """
    fine = "fine"
    """
    Fine and criss-crossing.
    """
    neither = "neither"
    """
    Too coarse for either kind.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SeptalSurfaceEnum(str, Enum):
    """
    Character of a septal surface.
    """
    coarse = "coarse"
    """
    Coarse.
    """
    smooth = "smooth"
    """
    Smooth in its upper part.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ChamberSizeEnum(str, Enum):
    """
    Size of a chamber.
    """
    normal = "normal"
    """
    Of usual size.
    """
    hypoplastic = "hypoplastic"
    """
    Small.
    """
    dilated = "dilated"
    """
    Large.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CompletenessEnum(str, Enum):
    """
    Components of a ventricle.
    """
    complete = "complete"
    """
    Inlet, apical and outlet components.
    """
    incomplete = "incomplete"
    """
    Lacks at least the inlet component.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SoughtEnum(str, Enum):
    """
    How something was looked for.
    """
    slices = "slices"
    """
    In slices through the mass.
    """
    scan = "scan"
    """
    In a volume scan.
    """
    probe = "probe"
    """
    With a probe only.
    """
    not_sought = "not_sought"
    """
    It was not looked for.
    """


class LateralRelationEnum(str, Enum):
    """
    Side to side.
    """
    right_sided = "right_sided"
    """
    To the right of the other.
    """
    left_sided = "left_sided"
    """
    To the left of the other.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AnteroposteriorRelationEnum(str, Enum):
    """
    Front to back.
    """
    anterior = "anterior"
    """
    In front of the other.
    """
    posterior = "posterior"
    """
    Behind the other.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class VerticalRelationEnum(str, Enum):
    """
    Top to bottom.
    """
    superior = "superior"
    """
    Above the other.
    """
    inferior = "inferior"
    """
    Below the other.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class SeptalAlignmentEnum(str, Enum):
    """
    Alignment of the septa.
    """
    aligned = "aligned"
    """
    The septa meet at the crux.
    """
    malaligned = "malaligned"
    """
    The ventricular septum misses the crux.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class BorderCategoryEnum(str, Enum):
    """
    Category by borders.
    """
    perimembranous = "perimembranous"
    """
    Rim with fibrous continuity of the atrioventricular valves, or remnant of the membranous septum.
    """
    muscular = "muscular"
    """
    All rims are muscle.
    """
    juxta_arterial = "juxta_arterial"
    """
    Roof made by both arterial valves.
    """
    juxta_arterial_perimembranous = "juxta_arterial_perimembranous"
    """
    Roof made by both arterial valves and fibrous posteroinferior rim.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class DefectGeographyEnum(str, Enum):
    """
    Part of the septum.
    """
    central = "central"
    """
    At the central base.
    """
    inlet = "inlet"
    """
    To the inlet.
    """
    trabecular = "trabecular"
    """
    In the apical trabecular part, no nearer place recorded.
    """
    midseptal = "midseptal"
    """
    In the middle of the trabecular part.
    """
    apical = "apical"
    """
    At the apex.
    """
    posteroinferior = "posteroinferior"
    """
    Low and behind in the trabecular part.
    """
    anterosuperior = "anterosuperior"
    """
    High and in front in the trabecular part.
    """
    outlet = "outlet"
    """
    To the outlet.
    """
    confluent = "confluent"
    """
    Over two regions or more.
    """
    atrioventricular_septal = "atrioventricular_septal"
    """
    Ventricular component of a defect with common junction.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class RimEnum(str, Enum):
    """
    Tissue of a rim.
    """
    muscular = "muscular"
    """
    Muscle.
    """
    fibrous = "fibrous"
    """
    Fibrous tissue or valvar continuity.
    """
    outlet_septum = "outlet_septum"
    """
    The outlet septum.
    """
    arterial_valves = "arterial_valves"
    """
    Both arterial valves in continuity.
    """
    absent = "absent"
    """
    No such rim.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CommitmentEnum(str, Enum):
    """
    Arterial root to which a hole opens.
    """
    subaortic = "subaortic"
    """
    To the aortic root.
    """
    subpulmonary = "subpulmonary"
    """
    To the pulmonary root.
    """
    doubly_committed = "doubly_committed"
    """
    To both roots.
    """
    non_committed = "non_committed"
    """
    To neither root.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class MalalignmentEnum(str, Enum):
    """
    Malalignment at a hole.
    """
    none = "none"
    """
    The septal parts are in line.
    """
    anterior_outlet = "anterior_outlet"
    """
    Outlet septum deviated in front and to the right.
    """
    posterior_outlet = "posterior_outlet"
    """
    Outlet septum deviated behind and to the left.
    """
    inlet = "inlet"
    """
    Atrial and ventricular septa out of line at the inlet.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PlaneOfClosureEnum(str, Enum):
    """
    Surface to be closed.
    """
    hole_itself = "hole_itself"
    """
    The surface of the hole itself.
    """
    baffle_plane = "baffle_plane"
    """
    A tunnel from the hole to an arterial root.
    """
    crest_to_outlet_septum = "crest_to_outlet_septum"
    """
    From the crest of the muscular septum to the outlet septum.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ArterialTargetEnum(str, Enum):
    """
    Arterial valve.
    """
    aortic = "aortic"
    """
    The aortic valve.
    """
    pulmonary = "pulmonary"
    """
    The pulmonary valve.
    """
    truncal = "truncal"
    """
    The valve of a common trunk.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class InfundibularMuscleEnum(str, Enum):
    """
    Muscle below an arterial valve.
    """
    complete = "complete"
    """
    A complete sleeve of muscle.
    """
    incomplete = "incomplete"
    """
    Muscle in part of the circumference.
    """
    absent = "absent"
    """
    No muscle between arterial and atrioventricular valve.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class FibrousContinuityEnum(str, Enum):
    """
    Atrioventricular valve in continuity.
    """
    mitral = "mitral"
    """
    With the mitral valve.
    """
    tricuspid = "tricuspid"
    """
    With the tricuspid valve.
    """
    both = "both"
    """
    With both.
    """
    common_valve = "common_valve"
    """
    With a common valve.
    """
    none = "none"
    """
    With none.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ObstructionEnum(str, Enum):
    """
    Obstruction of an outflow tract.
    """
    none = "none"
    """
    Looked for and not found.
    """
    subvalvar = "subvalvar"
    """
    Below the valve.
    """
    valvar = "valvar"
    """
    At the valve.
    """
    supravalvar = "supravalvar"
    """
    Above the valve.
    """
    not_assessable = "not_assessable"
    """
    Cannot be judged on this material.
    """
    not_examined = "not_examined"
    """
    Not looked at.
    """


class InfundibulumPatternEnum(str, Enum):
    """
    Infundibular pattern.
    """
    subaortic_only = "subaortic_only"
    """
    Complete muscle below the aortic valve only.
    """
    subpulmonary_only = "subpulmonary_only"
    """
    Complete muscle below the pulmonary valve only.
    """
    bilateral = "bilateral"
    """
    Complete muscle below both valves.
    """
    bilaterally_absent = "bilaterally_absent"
    """
    Complete muscle below neither.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OutletSeptumEnum(str, Enum):
    """
    Composition of the outlet septum.
    """
    muscular = "muscular"
    """
    Muscle.
    """
    fibrous = "fibrous"
    """
    Fibrous.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OutletSeptumDeviationEnum(str, Enum):
    """
    Deviation of the outlet septum.
    """
    none = "none"
    """
    None.
    """
    anterior = "anterior"
    """
    To the front and right.
    """
    posterior = "posterior"
    """
    To the back and left.
    """
    perpendicular = "perpendicular"
    """
    At a right angle to the muscular septum.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class FusionPatternEnum(str, Enum):
    """
    Leaflets that are fused.
    """
    right_left = "right_left"
    """
    Right and left coronary leaflets.
    """
    right_non = "right_non"
    """
    Right and non-coronary leaflets.
    """
    left_non = "left_non"
    """
    Left and non-coronary leaflets.
    """
    none = "none"
    """
    None.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TwoLeafletTypeEnum(str, Enum):
    """
    Kind of two-leaflet valve.
    """
    fused = "fused"
    """
    Two leaflets fused, three sinuses.
    """
    two_sinus = "two_sinus"
    """
    Two leaflets, two sinuses.
    """
    partial_fusion = "partial_fusion"
    """
    Three leaflets, one commissure partly fused.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TrunkIdentityEnum(str, Enum):
    """
    Identity of a trunk.
    """
    aorta = "aorta"
    """
    Gives coronary arteries and the arteries of head, neck and arms.
    """
    pulmonary_trunk = "pulmonary_trunk"
    """
    Gives the right and left pulmonary arteries.
    """
    common_arterial_trunk = "common_arterial_trunk"
    """
    One trunk that gives coronary, pulmonary and systemic arteries directly.
    """
    solitary_arterial_trunk = "solitary_arterial_trunk"
    """
    One trunk without intrapericardial pulmonary arteries.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TrunkCalibreEnum(str, Enum):
    """
    Calibre of a trunk.
    """
    normal = "normal"
    """
    Usual.
    """
    hypoplastic = "hypoplastic"
    """
    Small.
    """
    atretic = "atretic"
    """
    Without lumen at its root.
    """
    dilated = "dilated"
    """
    Large.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CutLevelEnum(str, Enum):
    """
    Level of a cut.
    """
    not_cut = "not_cut"
    """
    Not cut.
    """
    sinutubular_junction = "sinutubular_junction"
    """
    At or below the junction of sinuses and tube.
    """
    ascending = "ascending"
    """
    Above the junction and before the first branch.
    """
    arch = "arch"
    """
    Within the arch.
    """
    beyond_arch = "beyond_arch"
    """
    Beyond the last arch branch.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TrunkDominanceEnum(str, Enum):
    """
    Larger part of a common trunk.
    """
    aortic = "aortic"
    """
    The aortic part.
    """
    pulmonary = "pulmonary"
    """
    The pulmonary part.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class PulmonaryOriginEnum(str, Enum):
    """
    Pulmonary arteries of a common trunk.
    """
    short_common = "short_common"
    """
    A short common stem.
    """
    close_separate = "close_separate"
    """
    Two origins close together behind.
    """
    wide_separate = "wide_separate"
    """
    Two origins at the sides.
    """
    intermediate = "intermediate"
    """
    Between a stem and two origins.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AortaRelationEnum(str, Enum):
    """
    Place of the aortic valve with respect to the pulmonary valve.
    """
    normal = "normal"
    """
    Posterior and to the right, spiralling.
    """
    mirror_normal = "mirror_normal"
    """
    Posterior and to the left, spiralling the other way.
    """
    right = "right"
    """
    To the right.
    """
    left = "left"
    """
    To the left.
    """
    anterior = "anterior"
    """
    Directly in front.
    """
    anterior_right = "anterior_right"
    """
    In front and to the right.
    """
    anterior_left = "anterior_left"
    """
    In front and to the left.
    """
    right_side_by_side = "right_side_by_side"
    """
    Beside it, on the right.
    """
    left_side_by_side = "left_side_by_side"
    """
    Beside it, on the left.
    """
    posterior = "posterior"
    """
    Behind, not spiralling.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TrunkCourseEnum(str, Enum):
    """
    Course of the trunks.
    """
    spiral = "spiral"
    """
    They spiral.
    """
    parallel = "parallel"
    """
    They run parallel.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ViewingConventionEnum(str, Enum):
    """
    From where the sinuses were numbered.
    """
    surgical = "surgical"
    """
    Standing in the non-facing sinus and looking towards the pulmonary valve.
    """
    imaging = "imaging"
    """
    With the back to the pulmonary valve.
    """


class CoronaryOriginEnum(str, Enum):
    """
    Where a coronary artery arises.
    """
    sinus_1 = "sinus_1"
    """
    Sinus 1.
    """
    sinus_2 = "sinus_2"
    """
    Sinus 2.
    """
    non_facing_sinus = "non_facing_sinus"
    """
    The sinus that faces away from the pulmonary valve.
    """
    above_sinuses = "above_sinuses"
    """
    Above the sinutubular junction.
    """
    pulmonary_trunk = "pulmonary_trunk"
    """
    The pulmonary trunk or a pulmonary artery.
    """
    other_coronary_artery = "other_coronary_artery"
    """
    Another coronary artery.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class OrificeLevelEnum(str, Enum):
    """
    Level of an orifice.
    """
    in_sinus = "in_sinus"
    """
    Within the sinus.
    """
    at_sinutubular_junction = "at_sinutubular_junction"
    """
    At the junction.
    """
    above_sinutubular_junction = "above_sinutubular_junction"
    """
    Above the junction.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class CoronaryDominanceEnum(str, Enum):
    """
    Artery that gives the inferior interventricular artery.
    """
    right = "right"
    """
    The right coronary artery.
    """
    left = "left"
    """
    The circumflex artery.
    """
    balanced = "balanced"
    """
    Both.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class BronchusCrossedEnum(str, Enum):
    """
    Main bronchus crossed by the arch.
    """
    left = "left"
    """
    The left main bronchus.
    """
    right = "right"
    """
    The right main bronchus.
    """
    both = "both"
    """
    Both, by two arches.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ArchSideEnum(str, Enum):
    """
    Side of the arch.
    """
    left = "left"
    """
    Crosses the left main bronchus.
    """
    right = "right"
    """
    Crosses the right main bronchus.
    """
    double = "double"
    """
    Two arches.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ArchBranchEnum(str, Enum):
    """
    Branch of the arch.
    """
    right_brachiocephalic = "right_brachiocephalic"
    """
    Gives right subclavian and right common carotid arteries.
    """
    left_brachiocephalic = "left_brachiocephalic"
    """
    Gives left subclavian and left common carotid arteries.
    """
    right_common_carotid = "right_common_carotid"
    """
    Right common carotid artery.
    """
    left_common_carotid = "left_common_carotid"
    """
    Left common carotid artery.
    """
    right_subclavian = "right_subclavian"
    """
    Right subclavian artery.
    """
    left_subclavian = "left_subclavian"
    """
    Left subclavian artery.
    """
    vertebral = "vertebral"
    """
    A vertebral artery.
    """


class InterruptionSiteEnum(str, Enum):
    """
    Where an arch is interrupted.
    """
    none = "none"
    """
    Not interrupted.
    """
    distal_to_subclavian = "distal_to_subclavian"
    """
    Beyond the subclavian artery that arises last.
    """
    between_carotid_and_subclavian = "between_carotid_and_subclavian"
    """
    Between the second carotid and the subclavian artery.
    """
    between_carotids = "between_carotids"
    """
    Between the brachiocephalic and the next carotid artery.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class InterruptionTypeEnum(str, Enum):
    """
    Type of interruption.
    """
    A = "A"
    """
    Beyond the subclavian artery.
    """
    B = "B"
    """
    Between carotid and subclavian arteries.
    """
    C = "C"
    """
    Between the carotid arteries.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class DuctPatencyEnum(str, Enum):
    """
    State of the duct.
    """
    patent = "patent"
    """
    Open.
    """
    closed = "closed"
    """
    Closed but still a duct.
    """
    ligament = "ligament"
    """
    A ligament.
    """
    absent = "absent"
    """
    Looked for and not found.
    """
    not_identified = "not_identified"
    """
    Not identified; not proof of absence.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class DuctSideEnum(str, Enum):
    """
    Side of the duct.
    """
    left_sided = "left_sided"
    """
    On the left.
    """
    right_sided = "right_sided"
    """
    On the right.
    """
    bilateral = "bilateral"
    """
    On both sides.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ConductionStructureEnum(str, Enum):
    """
    Part of the conduction system.
    """
    sinus_node = "sinus_node"
    """
    The sinus node.
    """
    atrioventricular_node = "atrioventricular_node"
    """
    The atrioventricular node.
    """
    penetrating_bundle = "penetrating_bundle"
    """
    The penetrating bundle.
    """
    left_bundle_branch = "left_bundle_branch"
    """
    The left bundle branch.
    """
    right_bundle_branch = "right_bundle_branch"
    """
    The right bundle branch.
    """


class ProcedureEnum(str, Enum):
    """
    Trace of an operation.
    """
    patch = "patch"
    """
    A patch.
    """
    conduit = "conduit"
    """
    A conduit.
    """
    band = "band"
    """
    A band round a pulmonary artery.
    """
    shunt = "shunt"
    """
    A shunt between systemic and pulmonary arteries or veins.
    """
    valve_prosthesis = "valve_prosthesis"
    """
    A valve prosthesis.
    """
    excision = "excision"
    """
    Tissue was cut out.
    """
    stitches = "stitches"
    """
    Stitches only.
    """


class AtrialArrangementEnum(str, Enum):
    """
    Arrangement of the atrial appendages.
    """
    usual = "usual"
    """
    Morphologically right appendage on the right, morphologically left on the left.
    """
    mirror_image = "mirror_image"
    """
    Morphologically right appendage on the left, morphologically left on the right.
    """
    right_isomerism = "right_isomerism"
    """
    Both appendages morphologically right.
    """
    left_isomerism = "left_isomerism"
    """
    Both appendages morphologically left.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class TopologyEnum(str, Enum):
    """
    Ventricular topology.
    """
    right_hand = "right_hand"
    """
    Only the right hand lies palm-on the septal surface of the morphologically right ventricle with thumb in the inlet and fingers in the outlet.
    """
    left_hand = "left_hand"
    """
    Only the left hand lies so.
    """
    undetermined = "undetermined"
    """
    Looked at, and could not be told.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class AtrioventricularConnectionEnum(str, Enum):
    """
    Type of atrioventricular connection.
    """
    concordant = "concordant"
    """
    Each lateralised atrium joins its own ventricle.
    """
    discordant = "discordant"
    """
    Each lateralised atrium joins the other ventricle.
    """
    mixed = "mixed"
    """
    Isomeric appendages, each atrium joins its own ventricle, so that one half is concordant and one discordant.
    """
    double_inlet_lv = "double_inlet_lv"
    """
    Both junctions open mostly into the morphologically left ventricle.
    """
    double_inlet_rv = "double_inlet_rv"
    """
    Both junctions open mostly into the morphologically right ventricle.
    """
    double_inlet_solitary = "double_inlet_solitary"
    """
    Both junctions open into a solitary and indeterminate ventricle.
    """
    absent_right = "absent_right"
    """
    The right-sided atrium has no junction.
    """
    absent_left = "absent_left"
    """
    The left-sided atrium has no junction.
    """
    uniatrial_biventricular = "uniatrial_biventricular"
    """
    One atrium has no junction; the other opens into both ventricles.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class VentriculoarterialConnectionEnum(str, Enum):
    """
    Type of ventriculoarterial connection.
    """
    concordant = "concordant"
    """
    Aorta mostly from the morphologically left, pulmonary trunk mostly from the morphologically right ventricle.
    """
    discordant = "discordant"
    """
    Aorta mostly from the morphologically right, pulmonary trunk mostly from the morphologically left ventricle.
    """
    double_outlet_rv = "double_outlet_rv"
    """
    Both trunks mostly from the morphologically right ventricle.
    """
    double_outlet_lv = "double_outlet_lv"
    """
    Both trunks mostly from the morphologically left ventricle.
    """
    double_outlet_both = "double_outlet_both"
    """
    Both roots shared equally by both ventricles.
    """
    double_outlet_solitary = "double_outlet_solitary"
    """
    Both trunks from a solitary and indeterminate ventricle.
    """
    single_outlet_common_trunk = "single_outlet_common_trunk"
    """
    One common trunk.
    """
    single_outlet_solitary_trunk = "single_outlet_solitary_trunk"
    """
    One trunk without intrapericardial pulmonary arteries.
    """
    single_outlet_pulmonary_atresia = "single_outlet_pulmonary_atresia"
    """
    Aorta only, the atretic pulmonary trunk not traceable to a ventricle.
    """
    single_outlet_aortic_atresia = "single_outlet_aortic_atresia"
    """
    Pulmonary trunk only, the atretic aorta not traceable to a ventricle.
    """
    not_assessable = "not_assessable"
    """
    The feature cannot be judged on this material because the structure was removed, transected, damaged or hidden.
    """
    not_examined = "not_examined"
    """
    The feature could have been judged but the observer did not look at it.
    """


class ConclusionNameEnum(str, Enum):
    """
    Name of a conclusion.
    """
    atrial_arrangement = "atrial_arrangement"
    """
    Arrangement of the atrial appendages.
    """
    topology = "topology"
    """
    Ventricular topology.
    """
    av_connection = "av_connection"
    """
    Type of atrioventricular connection.
    """
    va_connection = "va_connection"
    """
    Type of ventriculoarterial connection.
    """
    trunk_identity = "trunk_identity"
    """
    Identity of a trunk.
    """
    arch_side = "arch_side"
    """
    Side of the arch.
    """


class DisharmonyEnum(str, Enum):
    """
    Whether an unusual combination was checked.
    """
    confirmed = "confirmed"
    """
    Looked at again and confirmed.
    """
    not_confirmed = "not_confirmed"
    """
    Not looked at again.
    """


class SchoolEnum(str, Enum):
    """
    School of nomenclature.
    """
    european = "european"
    """
    Words of the European school: connections named first.
    """
    north_american = "north_american"
    """
    Words of the North American school: segmental sets in braces.
    """
    mixed = "mixed"
    """
    Words of both.
    """


class ConfidenceEnum(str, Enum):
    """
    How firmly features decide.
    """
    decided = "decided"
    """
    A deciding feature was seen and none speaks against it.
    """
    supported = "supported"
    """
    Only supporting features were seen.
    """
    undetermined = "undetermined"
    """
    Deciding features were not seen or could not be judged.
    """
    conflict = "conflict"
    """
    Deciding features contradict each other.
    """


class ExaminationEnum(str, Enum):
    """
    How the specimen was looked at.
    """
    naked_eye = "naked_eye"
    """
    With the naked eye.
    """
    magnifier = "magnifier"
    """
    With a lens or dissecting microscope.
    """
    probe = "probe"
    """
    With a probe.
    """
    endoscope = "endoscope"
    """
    With an endoscope.
    """
    scan = "scan"
    """
    In a volume scan.
    """
    histology = "histology"
    """
    Under the microscope.
    """
    images = "images"
    """
    On photographs or video only.
    """



class Part(ConfiguredBaseModel):
    """
    A structure of the heart or body as one observer found it in one specimen.
    """
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["Part"] = Field(default="Part", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class FeatureObservation(ConfiguredBaseModel):
    """
    What is added to one feature of a part: its state where the feature is a number or words, reason, certainty, evidence.
    """
    feature: str = Field(default=..., description="""Name of the feature spoken of, as a slot of the part.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    certainty: Optional[CertaintyEnum] = Field(default=None, description="""How sure the observer was.""")
    evidence_refs: Optional[list[str]] = Field(default=None, description="""Pieces of evidence in the same record on which the statement rests.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    quote: Optional[str] = Field(default=None, description="""The words of the source from which the statement was taken.""")


class Commitment(ConfiguredBaseModel):
    """
    Share of a junction or arterial root that belongs to one ventricle.
    """
    ventricle: Optional[str] = Field(default=None, description="""The ventricle into which a junction opens or from which a trunk arises.""")
    per_cent: Optional[Decimal] = Field(default=None, description="""Share of the circumference of the junction or root committed to that ventricle, in per cent.""", ge=0, le=100)
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")


class Remark(ConfiguredBaseModel):
    """
    Free words of the catalogue that were kept as text and not interpreted.
    """
    text: str = Field(default=..., description="""Words kept as written.""")
    place: Optional[str] = Field(default=None, description="""Column or key from which the words were taken.""")


class Evidence(ConfiguredBaseModel):
    """
    A photograph, sequence, scan, drawing or report that shows what is stated.
    """
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    evidence_kind: Optional[EvidenceKindEnum] = Field(default=None, description="""Sort of evidence.""")
    source_file: str = Field(default=..., description="""Name or IRI of the photograph, video, scan or report.""")
    selector: Optional[str] = Field(default=None, description="""Media fragment that picks the region or the seconds: xywh=percent:10,20,30,40 or t=12.5,20.""")
    shows: Optional[list[EvidenceTarget]] = Field(default=None, description="""Parts and features that this evidence shows.""")
    view: Optional[str] = Field(default=None, description="""View or window used, such as right ventricle opened, short axis.""")
    made_by: Optional[str] = Field(default=None, description="""Person or role that made the evidence.""")
    made_on: Optional[str] = Field(default=None, description="""Date on which it was made: year, year-month or full date.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v

    @field_validator('selector')
    def pattern_selector(cls, v):
        pattern=re.compile(r"^(xywh=(pixel:|percent:)?[0-9.]+,[0-9.]+,[0-9.]+,[0-9.]+|t=(npt:)?[0-9.]*(,[0-9.]+)?|t=[0-9.]+,?[0-9.]*&xywh=(pixel:|percent:)?[0-9.]+,[0-9.]+,[0-9.]+,[0-9.]+)$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid selector format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid selector format: {v}"
            raise ValueError(err_msg)
        return v


class EvidenceTarget(ConfiguredBaseModel):
    """
    A part, and if wanted one of its features, that evidence shows.
    """
    part: str = Field(default=..., description="""The part of the record spoken of.""")
    feature: Optional[str] = Field(default=None, description="""Name of the feature spoken of, as a slot of the part.""")


class Measurement(ConfiguredBaseModel):
    """
    A measured number.
    """
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    part: Optional[str] = Field(default=None, description="""The part of the record spoken of.""")
    quantity: QuantityEnum = Field(default=..., description="""What was measured.""")
    value: Decimal = Field(default=..., description="""The number.""")
    unit: Optional[str] = Field(default=None, description="""Unit as a UCUM code.""")
    method: Optional[str] = Field(default=None, description="""How it was measured, such as calliper, probe, water displacement.""")
    site: Optional[str] = Field(default=None, description="""Where on the part it was measured, such as septal hinge, mid-septum.""")
    material_state: Optional[MaterialStateEnum] = Field(default=None, description="""State of the tissue when it was measured.""")
    reference_set: Optional[str] = Field(default=None, description="""Published reference used for a z-score or centile.""")
    body_measure: Optional[str] = Field(default=None, description="""Body measure used for a z-score, such as body surface area 0.21 m2.""")
    modality: Optional[str] = Field(default=None, description="""Imaging or direct measurement from which a z-score comes.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class Collection(ConfiguredBaseModel):
    """
    A set of specimens kept by one institution.
    """
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    name: str = Field(default=..., description="""Name of the collection.""")
    base_iri: Optional[str] = Field(default=None, description="""IRI under which the collection mints the identifiers of its records; ends in a slash or hash.""")
    custodian: Optional[str] = Field(default=None, description="""Institution that answers for the collection.""")
    licence: Optional[str] = Field(default=None, description="""Licence under which descriptions may be passed on, as an SPDX identifier or words.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class Specimen(ConfiguredBaseModel):
    """
    A heart, with or without neighbouring organs, kept for teaching or research.
    """
    accession: Optional[str] = Field(default=None, description="""Catalogue number of the specimen, kept as text with its leading zeros.""")
    other_numbers: Optional[list[str]] = Field(default=None, description="""Numbers under which the same specimen is known elsewhere.""")
    loan_from: Optional[str] = Field(default=None, description="""Collection from which the specimen came on loan or in exchange.""")
    material: Optional[MaterialEnum] = Field(default=None, description="""How much of the body was kept.""")
    preparation: Optional[list[PreparationEnum]] = Field(default=None, description="""What was done to the specimen before it was described.""")
    fixation: Optional[MaterialStateEnum] = Field(default=None, description="""Fluid or process in which the specimen is kept.""")
    material_states: Optional[list[MaterialCondition]] = Field(default=None, description="""Structures that were removed, transected, damaged or hidden.""")
    operated: Optional[PresenceEnum] = Field(default=None, description="""Whether the heart had been operated on in life.""")
    age_group: Optional[AgeGroupEnum] = Field(default=None, description="""Age at death as a coarse group.""")
    age_text: Optional[str] = Field(default=None, description="""Age as written in the catalogue, never an exact date.""")
    sex: Optional[SexEnum] = Field(default=None, description="""Sex as recorded; optional.""")
    acquired: Optional[str] = Field(default=None, description="""Year or decade of acquisition.""")
    consent: Optional[ConsentEnum] = Field(default=None, description="""Ground on which the specimen is kept.""")
    consent_scope: Optional[list[ConsentScopeEnum]] = Field(default=None, description="""Uses that the consent covers.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")


class MaterialCondition(ConfiguredBaseModel):
    """
    State of one structure of the specimen as material.
    """
    structure: str = Field(default=..., description="""Structure spoken of, as a part of the record or a term of the vocabulary.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")


class HeartPosition(Part):
    """
    Place of the heart in the chest and direction of its apex: two fields, never derived from each other.
    """
    cardiac_position: Optional[CardiacPositionEnum] = Field(default=None, description="""Where the bulk of the heart lies in the chest, apart from its arrangement.""")
    apex: Optional[ApexEnum] = Field(default=None, description="""Direction in which the apex points.""")
    arrangement_source: Optional[ArrangementSourceEnum] = Field(default=None, description="""Where the statement on organs outside the heart comes from.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["HeartPosition"] = Field(default="HeartPosition", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class ThoracicOrgans(Part):
    """
    Lungs and bronchi.
    """
    right_sided_bronchus: Optional[BronchusEnum] = Field(default=None, description="""Morphology of the main bronchus on the right side.""")
    left_sided_bronchus: Optional[BronchusEnum] = Field(default=None, description="""Morphology of the main bronchus on the left side.""")
    right_sided_lung_lobes: Optional[int] = Field(default=None, description="""Number of lobes of the lung on the right side.""", ge=0)
    left_sided_lung_lobes: Optional[int] = Field(default=None, description="""Number of lobes of the lung on the left side.""", ge=0)
    bronchial_arrangement: Optional[OrganArrangementEnum] = Field(default=None, description="""Arrangement of the bronchi as stated by the observer.""")
    arrangement_source: Optional[ArrangementSourceEnum] = Field(default=None, description="""Where the statement on organs outside the heart comes from.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["ThoracicOrgans"] = Field(default="ThoracicOrgans", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AbdominalOrgans(Part):
    """
    Liver, stomach, spleen, gut.
    """
    liver_side: Optional[OrganSideEnum] = Field(default=None, description="""Side on which the bulk of the liver lies.""")
    stomach_side: Optional[OrganSideEnum] = Field(default=None, description="""Side on which the stomach lies.""")
    spleen: Optional[SpleenEnum] = Field(default=None, description="""Number and place of the spleen.""")
    gut_rotation: Optional[GutRotationEnum] = Field(default=None, description="""Rotation of the gut.""")
    abdominal_arrangement: Optional[OrganArrangementEnum] = Field(default=None, description="""Arrangement of the abdominal organs as stated by the observer.""")
    caval_aortic_relation: Optional[CavalAorticRelationEnum] = Field(default=None, description="""How aorta and inferior caval vein lie to the spine at the level of the diaphragm.""")
    arrangement_source: Optional[ArrangementSourceEnum] = Field(default=None, description="""Where the statement on organs outside the heart comes from.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AbdominalOrgans"] = Field(default="AbdominalOrgans", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class SystemicVeins(Part):
    """
    Veins that bring blood from the body and the heart itself.
    """
    right_superior_caval_vein: Optional[PresenceEnum] = Field(default=None, description="""Superior caval vein on the right.""")
    left_superior_caval_vein: Optional[PresenceEnum] = Field(default=None, description="""Superior caval vein on the left.""")
    left_superior_caval_vein_to: Optional[CavalDrainageEnum] = Field(default=None, description="""Where the left superior caval vein ends.""")
    inferior_caval_vein: Optional[InferiorCavalVeinEnum] = Field(default=None, description="""Course of the suprarenal inferior caval vein.""")
    azygos_continuation: Optional[SideEnum] = Field(default=None, description="""Side of the azygos continuation of an interrupted inferior caval vein.""")
    hepatic_veins_to: Optional[AtrialSideEnum] = Field(default=None, description="""Atrium that receives the hepatic veins.""")
    coronary_sinus: Optional[CoronarySinusEnum] = Field(default=None, description="""State of the coronary sinus.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["SystemicVeins"] = Field(default="SystemicVeins", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class PulmonaryVeins(Part):
    """
    Veins that bring blood from the lungs.
    """
    pulmonary_vein_count: Optional[int] = Field(default=None, description="""Number of pulmonary veins found.""", ge=0)
    pulmonary_venous_connection: Optional[PulmonaryVenousConnectionEnum] = Field(default=None, description="""Anatomical connection of the pulmonary veins; drainage is another thing.""")
    anomalous_site: Optional[AnomalousVenousSiteEnum] = Field(default=None, description="""Site of anomalous connection.""")
    pulmonary_veins_to_left_atrium: Optional[int] = Field(default=None, description="""Number of pulmonary veins that join the morphologically left atrium.""", ge=0)
    venous_obstruction: Optional[PresenceEnum] = Field(default=None, description="""Obstruction of the pulmonary venous pathway.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["PulmonaryVeins"] = Field(default="PulmonaryVeins", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class Atrium(Part):
    """
    An atrial chamber with its appendage, named by side; identity is derived from its features.
    """
    appendage_shape: Optional[AppendageShapeEnum] = Field(default=None, description="""Shape of the appendage.""")
    appendage_junction: Optional[AppendageJunctionEnum] = Field(default=None, description="""Width of the mouth of the appendage.""")
    terminal_crest: Optional[PresenceEnum] = Field(default=None, description="""Terminal crest between appendage and venous part.""")
    pectinate_extent: Optional[PectinateExtentEnum] = Field(default=None, description="""How far the pectinate muscles reach round the vestibule; decides the identity.""")
    appendage_morphology: Optional[AppendageMorphologyEnum] = Field(default=None, description="""Morphology of the appendage as the observer judged it.""")
    appendage_position: Optional[AppendagePositionEnum] = Field(default=None, description="""Place of the appendage with respect to the arterial trunks.""")
    oval_fossa_rim: Optional[PresenceEnum] = Field(default=None, description="""Muscular infolded rim of the oval fossa on this side.""")
    oval_fossa_flap: Optional[PresenceEnum] = Field(default=None, description="""Flap valve of the oval fossa on this side.""")
    divided_atrium: Optional[DividedAtriumEnum] = Field(default=None, description="""A shelf that divides an atrium.""")
    stated_atrial_identity: Optional[AtrialIdentityEnum] = Field(default=None, description="""Identity of the atrium as the observer named it.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["Atrium"] = Field(default="Atrium", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AtrialSeptum(Part):
    """
    The wall between the atria.
    """
    septal_integrity: Optional[SeptalIntegrityEnum] = Field(default=None, description="""Whether the septum is whole.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AtrialSeptum"] = Field(default="AtrialSeptum", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class InteratrialCommunication(Part):
    """
    A hole between the atria.
    """
    interatrial_location: Optional[InteratrialLocationEnum] = Field(default=None, description="""Where the hole lies with respect to the oval fossa and the veins.""")
    patency: Optional[CommunicationPatencyEnum] = Field(default=None, description="""Whether a hole is open as found.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["InteratrialCommunication"] = Field(default="InteratrialCommunication", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AtrioventricularJunctions(Part):
    """
    The two junctions seen together.
    """
    junction_pattern: Optional[JunctionPatternEnum] = Field(default=None, description="""Whether the two junctions are separate or one common junction.""")
    valvar_orifices: Optional[ValvarOrificesEnum] = Field(default=None, description="""How the common or separate junctions are guarded.""")
    atrioventricular_septum: Optional[PresenceEnum] = Field(default=None, description="""Atrioventricular septal structures between the junctions.""")
    hinge_offset_direction: Optional[HingeOffsetEnum] = Field(default=None, description="""Which septal hinge lies nearer the apex.""")
    hinge_offset_mm: Optional[Decimal] = Field(default=None, description="""Distance by which the septal hinge of the valve of the morphologically right ventricle lies nearer the apex; negative when reversed.""")
    outlet_inlet_ratio: Optional[OutletInletEnum] = Field(default=None, description="""Length of the outlet compared with the inlet of the left ventricle.""")
    ventricular_balance: Optional[VentricularBalanceEnum] = Field(default=None, description="""How a common junction is shared between the ventricles.""")
    per_cent_to_left_ventricle: Optional[Decimal] = Field(default=None, description="""Share of a common junction over the morphologically left ventricle.""", ge=0, le=100)
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AtrioventricularJunctions"] = Field(default="AtrioventricularJunctions", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AtrioventricularJunction(Part):
    """
    The junction of one atrium with the ventricular mass; state absent means that the atrium has no junction.
    """
    atrium: Optional[str] = Field(default=None, description="""The atrium above this junction.""")
    opens_into: Optional[list[Commitment]] = Field(default=None, description="""Ventricles into which the junction opens, each with its share.""")
    floor_tissue: Optional[FloorTissueEnum] = Field(default=None, description="""Tissue in the floor of an atrium that has no junction.""")
    overriding: Optional[PresenceEnum] = Field(default=None, description="""Junction or root committed to both ventricles.""")
    override_per_cent: Optional[Decimal] = Field(default=None, description="""Share of the circumference over the ventricle that is not its own.""", ge=0, le=100)
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AtrioventricularJunction"] = Field(default="AtrioventricularJunction", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AtrioventricularValve(Part):
    """
    A valve that guards an atrioventricular junction, named by side; identity is derived.
    """
    junction: Optional[str] = Field(default=None, description="""The junction guarded by this valve.""")
    stated_valve_type: Optional[ValveTypeEnum] = Field(default=None, description="""Name given to the valve by the observer.""")
    valve_patency: Optional[ValvePatencyEnum] = Field(default=None, description="""Whether blood could pass the valve.""")
    leaflet_count: Optional[int] = Field(default=None, description="""Number of leaflets found.""", ge=0, le=8)
    septal_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the septal leaflet.""")
    anterosuperior_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the anterosuperior leaflet.""")
    inferior_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the inferior, or mural, leaflet of the tricuspid valve.""")
    aortic_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the aortic leaflet of the mitral valve.""")
    mural_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the mural leaflet of the mitral valve.""")
    superior_bridging_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the superior bridging leaflet.""")
    inferior_bridging_leaflet: Optional[LeafletEnum] = Field(default=None, description="""State of the inferior bridging leaflet.""")
    septal_chordal_attachment: Optional[PresenceEnum] = Field(default=None, description="""Tendinous cords attached directly to the ventricular septum.""")
    papillary_muscles: Optional[PapillaryPatternEnum] = Field(default=None, description="""Pattern of the papillary muscles.""")
    medial_papillary_muscle: Optional[PresenceEnum] = Field(default=None, description="""Medial papillary muscle on the septomarginal trabeculation.""")
    cleft: Optional[PresenceEnum] = Field(default=None, description="""A cleft in a leaflet.""")
    zone_of_apposition: Optional[PresenceEnum] = Field(default=None, description="""Zone of apposition between the left ventricular components of the bridging leaflets.""")
    straddling: Optional[PresenceEnum] = Field(default=None, description="""Tension apparatus attached on both sides of the ventricular septum.""")
    straddling_degree: Optional[StraddlingDegreeEnum] = Field(default=None, description="""How far across the septum the tension apparatus reaches.""")
    straddling_attachment: Optional[str] = Field(default=None, description="""Where the cords attach on the far side.""")
    overriding: Optional[PresenceEnum] = Field(default=None, description="""Junction or root committed to both ventricles.""")
    override_per_cent: Optional[Decimal] = Field(default=None, description="""Share of the circumference over the ventricle that is not its own.""", ge=0, le=100)
    free_standing_leaflet_bridging: Optional[RastelliEnum] = Field(default=None, description="""Form of the superior bridging leaflet under a common orifice.""")
    dual_orifice: Optional[PresenceEnum] = Field(default=None, description="""Two orifices within one valve.""")
    supravalvar_ring: Optional[PresenceEnum] = Field(default=None, description="""Fibrous shelf above the valve.""")
    dysplasia: Optional[PresenceEnum] = Field(default=None, description="""Leaflets thickened, knotted or ill formed.""")
    stenosis: Optional[PresenceEnum] = Field(default=None, description="""Narrowing of the valve.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AtrioventricularValve"] = Field(default="AtrioventricularValve", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class Ventricle(Part):
    """
    A ventricular chamber; identity is derived from its apical part.
    """
    ventricle_position: Optional[list[VentriclePositionEnum]] = Field(default=None, description="""Where this ventricle lies with respect to the other; several may hold.""")
    stated_ventricular_identity: Optional[VentricularIdentityEnum] = Field(default=None, description="""Identity of the ventricle as the observer named it.""")
    apical_trabeculation: Optional[ApicalTrabeculationEnum] = Field(default=None, description="""Character of the apical trabeculations; decides the identity.""")
    septomarginal_trabeculation: Optional[PresenceEnum] = Field(default=None, description="""Septomarginal trabeculation on the septal surface.""")
    moderator_band: Optional[PresenceEnum] = Field(default=None, description="""Moderator band.""")
    septal_surface: Optional[SeptalSurfaceEnum] = Field(default=None, description="""Character of the upper septal surface.""")
    septal_valve_attachments: Optional[PresenceEnum] = Field(default=None, description="""Attachments of an atrioventricular valve to the septal surface of this ventricle.""")
    ventricle_size: Optional[ChamberSizeEnum] = Field(default=None, description="""Size of the chamber.""")
    completeness: Optional[CompletenessEnum] = Field(default=None, description="""Whether the ventricle has all three components.""")
    inlet_component: Optional[PresenceEnum] = Field(default=None, description="""Inlet component.""")
    apical_component: Optional[PresenceEnum] = Field(default=None, description="""Apical trabecular component.""")
    outlet_component: Optional[PresenceEnum] = Field(default=None, description="""Outlet component.""")
    second_ventricle_sought: Optional[SoughtEnum] = Field(default=None, description="""How a second ventricle was looked for.""")
    noncompaction: Optional[PresenceEnum] = Field(default=None, description="""Abnormally spongy wall.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["Ventricle"] = Field(default="Ventricle", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class VentricularMass(Part):
    """
    How the ventricles lie to each other; never a ground for connections.
    """
    right_ventricle_lateral: Optional[LateralRelationEnum] = Field(default=None, description="""Where the morphologically right ventricle lies, side to side.""")
    right_ventricle_anteroposterior: Optional[AnteroposteriorRelationEnum] = Field(default=None, description="""Where the morphologically right ventricle lies, front to back.""")
    right_ventricle_vertical: Optional[VerticalRelationEnum] = Field(default=None, description="""Where the morphologically right ventricle lies, top to bottom.""")
    twisting: Optional[PresenceEnum] = Field(default=None, description="""Crossing of the inlets by rotation about the long axis.""")
    tilting: Optional[PresenceEnum] = Field(default=None, description="""Ventricles one above the other with parallel inlets.""")
    whole_heart_rotation: Optional[PresenceEnum] = Field(default=None, description="""Rotation of the whole heart about its long axis.""")
    ventricular_balance: Optional[VentricularBalanceEnum] = Field(default=None, description="""How a common junction is shared between the ventricles.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["VentricularMass"] = Field(default="VentricularMass", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class VentricularSeptum(Part):
    """
    The wall between the ventricles.
    """
    septal_integrity: Optional[SeptalIntegrityEnum] = Field(default=None, description="""Whether the septum is whole.""")
    septal_alignment: Optional[SeptalAlignmentEnum] = Field(default=None, description="""Alignment of the muscular ventricular septum with the atrial septum.""")
    communication_count: Optional[int] = Field(default=None, description="""Number of holes if they were counted.""", ge=0)
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["VentricularSeptum"] = Field(default="VentricularSeptum", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class InterventricularCommunication(Part):
    """
    A hole between the ventricles, described by borders and by geography.
    """
    stated_border_category: Optional[BorderCategoryEnum] = Field(default=None, description="""Category by borders as the observer named it.""")
    geography: Optional[DefectGeographyEnum] = Field(default=None, description="""Part of the septum in which the hole opens into the morphologically right ventricle.""")
    roof_rim: Optional[RimEnum] = Field(default=None, description="""Tissue of the roof, or cranial rim.""")
    posteroinferior_rim: Optional[RimEnum] = Field(default=None, description="""Tissue of the posteroinferior rim.""")
    anterior_rim: Optional[RimEnum] = Field(default=None, description="""Tissue of the anterior rim.""")
    caudal_rim: Optional[RimEnum] = Field(default=None, description="""Tissue of the caudal rim, or crest.""")
    tricuspid_mitral_continuity: Optional[PresenceEnum] = Field(default=None, description="""Fibrous continuity between the tricuspid and mitral valves in the rim.""")
    aortic_tricuspid_continuity: Optional[PresenceEnum] = Field(default=None, description="""Fibrous continuity between the aortic and tricuspid valves in the rim.""")
    arterial_valvar_continuity: Optional[PresenceEnum] = Field(default=None, description="""Fibrous continuity between both arterial valves in the roof.""")
    between_limbs: Optional[PresenceEnum] = Field(default=None, description="""Hole cradled between the limbs of the septomarginal trabeculation.""")
    commitment: Optional[CommitmentEnum] = Field(default=None, description="""Arterial root to which the hole opens.""")
    malalignment: Optional[MalalignmentEnum] = Field(default=None, description="""Malalignment of the septal parts at the hole.""")
    restrictive: Optional[PresenceEnum] = Field(default=None, description="""Hole smaller than the aortic orifice.""")
    plane_of_closure: Optional[PlaneOfClosureEnum] = Field(default=None, description="""Surface that would have to be closed to part the two streams; not the same as the hole in double outlet.""")
    opens_to_atrium: Optional[PresenceEnum] = Field(default=None, description="""Hole that opens between left ventricle and right atrium.""")
    patency: Optional[CommunicationPatencyEnum] = Field(default=None, description="""Whether a hole is open as found.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["InterventricularCommunication"] = Field(default="InterventricularCommunication", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class OutflowTract(Part):
    """
    The way from a ventricle to one arterial valve.
    """
    outflow_of: Optional[ArterialTargetEnum] = Field(default=None, description="""Arterial valve that this outflow tract supports.""")
    ventricle: Optional[str] = Field(default=None, description="""The ventricle into which a junction opens or from which a trunk arises.""")
    infundibulum_below: Optional[InfundibularMuscleEnum] = Field(default=None, description="""Muscle below the arterial valve.""")
    arterial_atrioventricular_continuity: Optional[FibrousContinuityEnum] = Field(default=None, description="""Atrioventricular valve in fibrous continuity with this arterial valve.""")
    obstruction: Optional[list[ObstructionEnum]] = Field(default=None, description="""Obstruction of this outflow tract.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["OutflowTract"] = Field(default="OutflowTract", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class OutflowTracts(Part):
    """
    The outflow tracts seen together.
    """
    infundibulum: Optional[InfundibulumPatternEnum] = Field(default=None, description="""Infundibular pattern of the heart as a whole.""")
    outlet_septum: Optional[OutletSeptumEnum] = Field(default=None, description="""Composition of the outlet septum.""")
    outlet_septum_deviation: Optional[OutletSeptumDeviationEnum] = Field(default=None, description="""Deviation of the outlet septum.""")
    septoparietal_hypertrophy: Optional[PresenceEnum] = Field(default=None, description="""Hypertrophy of the septoparietal trabeculations.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["OutflowTracts"] = Field(default="OutflowTracts", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class ArterialValve(Part):
    """
    A valve at the root of an arterial trunk.
    """
    stated_arterial_valve: Optional[ArterialTargetEnum] = Field(default=None, description="""Name given to the arterial valve.""")
    valve_patency: Optional[ValvePatencyEnum] = Field(default=None, description="""Whether blood could pass the valve.""")
    leaflet_count: Optional[int] = Field(default=None, description="""Number of leaflets found.""", ge=0, le=8)
    sinus_count: Optional[int] = Field(default=None, description="""Number of sinuses.""", ge=0, le=8)
    commissure_count: Optional[int] = Field(default=None, description="""Number of full commissures.""", ge=0, le=8)
    raphe_count: Optional[int] = Field(default=None, description="""Number of raphes.""", ge=0, le=4)
    fusion_pattern: Optional[FusionPatternEnum] = Field(default=None, description="""Leaflets that are fused.""")
    two_leaflet_type: Optional[TwoLeafletTypeEnum] = Field(default=None, description="""Kind of two-leaflet valve.""")
    dysplasia: Optional[PresenceEnum] = Field(default=None, description="""Leaflets thickened, knotted or ill formed.""")
    stenosis: Optional[PresenceEnum] = Field(default=None, description="""Narrowing of the valve.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["ArterialValve"] = Field(default="ArterialValve", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class ArterialTrunk(Part):
    """
    A trunk that leaves the heart; identity is derived from its branches.
    """
    stated_trunk_identity: Optional[TrunkIdentityEnum] = Field(default=None, description="""Identity of the trunk as the observer named it.""")
    arises_from: Optional[list[Commitment]] = Field(default=None, description="""Ventricles from which the root arises, each with its share.""")
    overriding: Optional[PresenceEnum] = Field(default=None, description="""Junction or root committed to both ventricles.""")
    override_per_cent: Optional[Decimal] = Field(default=None, description="""Share of the circumference over the ventricle that is not its own.""", ge=0, le=100)
    gives_coronary_arteries: Optional[PresenceEnum] = Field(default=None, description="""At least one coronary artery arises from this trunk.""")
    gives_arch_branches: Optional[PresenceEnum] = Field(default=None, description="""Arteries of head, neck and arms arise from this trunk.""")
    gives_pulmonary_arteries: Optional[PresenceEnum] = Field(default=None, description="""Pulmonary arteries arise from this trunk.""")
    trunk_calibre: Optional[TrunkCalibreEnum] = Field(default=None, description="""Calibre of the trunk.""")
    cord_to_ventricle: Optional[PresenceEnum] = Field(default=None, description="""An atretic trunk that can be followed as a cord to a ventricle.""")
    cut_level: Optional[CutLevelEnum] = Field(default=None, description="""Level at which the trunk was cut.""")
    dominance: Optional[TrunkDominanceEnum] = Field(default=None, description="""Part of a common trunk that is larger.""")
    pulmonary_origin_pattern: Optional[PulmonaryOriginEnum] = Field(default=None, description="""How the pulmonary arteries leave a common trunk.""")
    intrapericardial_pulmonary_arteries: Optional[PresenceEnum] = Field(default=None, description="""Pulmonary arteries or a remnant within the pericardium.""")
    collateral_arteries: Optional[PresenceEnum] = Field(default=None, description="""Arteries from the aorta or its branches to the lungs.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["ArterialTrunk"] = Field(default="ArterialTrunk", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class GreatArteries(Part):
    """
    The trunks seen together.
    """
    aorta_relation: Optional[AortaRelationEnum] = Field(default=None, description="""Where the aortic valve lies with respect to the pulmonary valve.""")
    trunk_course: Optional[TrunkCourseEnum] = Field(default=None, description="""Whether the trunks spiral or run parallel.""")
    aortopulmonary_window: Optional[PresenceEnum] = Field(default=None, description="""Hole between the two trunks above two arterial valves.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["GreatArteries"] = Field(default="GreatArteries", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class CoronaryArteries(Part):
    """
    The arteries of the heart.
    """
    leiden_code: Optional[str] = Field(default=None, description="""Origins of the coronary arteries in the Leiden convention.""")
    viewing_convention: Optional[ViewingConventionEnum] = Field(default=None, description="""From where the sinuses were numbered.""")
    right_coronary_origin: Optional[CoronaryOriginEnum] = Field(default=None, description="""Where the right coronary artery arises.""")
    left_coronary_origin: Optional[CoronaryOriginEnum] = Field(default=None, description="""Where the left coronary artery arises.""")
    circumflex_origin: Optional[CoronaryOriginEnum] = Field(default=None, description="""Where the circumflex artery arises.""")
    single_coronary_artery: Optional[PresenceEnum] = Field(default=None, description="""All coronary arteries from one orifice.""")
    duplicate_coronary_origin: Optional[PresenceEnum] = Field(default=None, description="""An artery with two origins.""")
    orifice_level: Optional[OrificeLevelEnum] = Field(default=None, description="""Level of the orifice with respect to the sinutubular junction.""")
    paracommissural_orifice: Optional[PresenceEnum] = Field(default=None, description="""Orifice next to a commissure.""")
    intramural_course: Optional[PresenceEnum] = Field(default=None, description="""Course within the wall of the trunk.""")
    coronary_fistula: Optional[PresenceEnum] = Field(default=None, description="""Fistula between a coronary artery and a chamber or vessel.""")
    coronary_dominance: Optional[CoronaryDominanceEnum] = Field(default=None, description="""Artery that gives the inferior interventricular artery.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["CoronaryArteries"] = Field(default="CoronaryArteries", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('leiden_code')
    def pattern_leiden_code(cls, v):
        pattern=re.compile(r"^[0-9A-Za-z;,: .()-]{1,60}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid leiden_code format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid leiden_code format: {v}"
            raise ValueError(err_msg)
        return v

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class AorticArch(Part):
    """
    The arch of the aorta and its branches.
    """
    bronchus_crossed: Optional[BronchusCrossedEnum] = Field(default=None, description="""Main bronchus that the arch crosses; decides its side.""")
    stated_arch_side: Optional[ArchSideEnum] = Field(default=None, description="""Side of the arch as the observer named it.""")
    descending_aorta_side: Optional[SideEnum] = Field(default=None, description="""Side on which the aorta descends; does not decide the side of the arch.""")
    arch_branches: Optional[list[ArchBranchEnum]] = Field(default=None, description="""Branches of the arch in order from the heart.""")
    arch_branch_count: Optional[int] = Field(default=None, description="""Number of branches of the arch.""", ge=0, le=8)
    aberrant_subclavian: Optional[PresenceEnum] = Field(default=None, description="""Subclavian artery as last branch, behind the oesophagus.""")
    interruption: Optional[InterruptionSiteEnum] = Field(default=None, description="""Where the arch is interrupted.""")
    stated_interruption_type: Optional[InterruptionTypeEnum] = Field(default=None, description="""Type letter given by the observer.""")
    coarctation: Optional[PresenceEnum] = Field(default=None, description="""Shelf or narrowing near the duct.""")
    arch_hypoplasia: Optional[PresenceEnum] = Field(default=None, description="""Narrow arch.""")
    vascular_ring: Optional[PresenceEnum] = Field(default=None, description="""Ring of vessels and ligament round trachea and oesophagus.""")
    cervical_arch: Optional[PresenceEnum] = Field(default=None, description="""Arch above the clavicle.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["AorticArch"] = Field(default="AorticArch", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class ArterialDuct(Part):
    """
    The duct between pulmonary artery and aorta, or its ligament.
    """
    duct_patency: Optional[DuctPatencyEnum] = Field(default=None, description="""State of the arterial duct.""")
    duct_side: Optional[DuctSideEnum] = Field(default=None, description="""Side of the duct.""")
    retro_oesophageal: Optional[PresenceEnum] = Field(default=None, description="""Course behind the oesophagus.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["ArterialDuct"] = Field(default="ArterialDuct", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class ConductionFinding(Part):
    """
    A part of the conduction system that was found, not expected.
    """
    conduction_structure: Optional[ConductionStructureEnum] = Field(default=None, description="""Part of the conduction system spoken of.""")
    conduction_place: Optional[str] = Field(default=None, description="""Where it was found.""")
    histology_reference: Optional[str] = Field(default=None, description="""Section or report on which the finding rests.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["ConductionFinding"] = Field(default="ConductionFinding", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class SurgicalFinding(Part):
    """
    The trace of an operation, apart from the native anatomy.
    """
    procedure: Optional[ProcedureEnum] = Field(default=None, description="""Trace of an operation.""")
    operated_part: Optional[str] = Field(default=None, description="""Part on which the operation was done.""")
    native_state_known: Optional[PresenceEnum] = Field(default=None, description="""Whether the state before operation can be told.""")
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    type: Literal["SurgicalFinding"] = Field(default="SurgicalFinding", description="""Class of the part, by its name in this schema.""")
    state: Optional[ObservationStateEnum] = Field(default=None, description="""Whether the structure as a whole was found, was looked for and not found, could not be judged, or was not looked at.""")
    state_reason: Optional[AssessabilityReasonEnum] = Field(default=None, description="""Why a structure or feature could not be judged.""")
    side: Optional[SideEnum] = Field(default=None, description="""Side of the body on which the structure lies, whatever its morphology.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")
    observed: Optional[list[FeatureObservation]] = Field(default=None, description="""What the observer added about single features: certainty, reason, evidence.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v


class Conclusions(ConfiguredBaseModel):
    """
    What a heart is taken to be.
    """
    topology: Optional[TopologyEnum] = Field(default=None, description="""Ventricular topology.""")
    av_connection: Optional[AtrioventricularConnectionEnum] = Field(default=None, description="""Type of atrioventricular connection.""")
    va_connection: Optional[VentriculoarterialConnectionEnum] = Field(default=None, description="""Type of ventriculoarterial connection.""")
    notation: Optional[str] = Field(default=None, description="""Segmental notation in braces, as published: PREFIX {1,2,3}.""")


class StatedConclusions(Conclusions):
    """
    What the observer concluded.
    """
    atrial_arrangement: Optional[AtrialArrangementEnum] = Field(default=None, description="""Arrangement of the atrial appendages.""")
    diagnoses: Optional[list[str]] = Field(default=None, description="""Malformations named, as terms of the vocabulary.""")
    statement: Optional[str] = Field(default=None, description="""The sentence with which the observer says what the heart is.""")
    conclusion_basis: Optional[list[ConclusionBasis]] = Field(default=None, description="""What the observer rested a conclusion on.""")
    inference_note: Optional[str] = Field(default=None, description="""Why a conclusion was drawn though a deciding feature could not be seen.""")
    disharmony: Optional[DisharmonyEnum] = Field(default=None, description="""Whether an unusual combination of connection and topology was checked and confirmed.""")
    convention: Optional[SchoolEnum] = Field(default=None, description="""School of nomenclature in whose sense the conclusion is meant.""")
    topology: Optional[TopologyEnum] = Field(default=None, description="""Ventricular topology.""")
    av_connection: Optional[AtrioventricularConnectionEnum] = Field(default=None, description="""Type of atrioventricular connection.""")
    va_connection: Optional[VentriculoarterialConnectionEnum] = Field(default=None, description="""Type of ventriculoarterial connection.""")
    notation: Optional[str] = Field(default=None, description="""Segmental notation in braces, as published: PREFIX {1,2,3}.""")


class DerivedConclusions(Conclusions):
    """
    What the toolkit derives from the recorded features, each with its ground.
    """
    arrangement: Optional[AtrialArrangementEnum] = Field(default=None, description="""Arrangement of the atrial appendages as derived.""")
    statement_european: Optional[str] = Field(default=None, description="""Derived sentence in the words of the European school.""")
    statement_north_american: Optional[str] = Field(default=None, description="""Derived sentence in the words of the North American school.""")
    identities: Optional[list[DerivedIdentity]] = Field(default=None, description="""Identities derived from features.""")
    derived_diagnoses: Optional[list[DerivedDiagnosis]] = Field(default=None, description="""Malformations derived, each with its premises.""")
    undetermined: Optional[list[Undetermined]] = Field(default=None, description="""What could not be determined and why.""")
    topology: Optional[TopologyEnum] = Field(default=None, description="""Ventricular topology.""")
    av_connection: Optional[AtrioventricularConnectionEnum] = Field(default=None, description="""Type of atrioventricular connection.""")
    va_connection: Optional[VentriculoarterialConnectionEnum] = Field(default=None, description="""Type of ventriculoarterial connection.""")
    notation: Optional[str] = Field(default=None, description="""Segmental notation in braces, as published: PREFIX {1,2,3}.""")


class ConclusionBasis(ConfiguredBaseModel):
    """
    What one stated conclusion rests on.
    """
    conclusion: ConclusionNameEnum = Field(default=..., description="""The conclusion spoken of.""")
    rests_on: Optional[list[str]] = Field(default=None, description="""Features or parts on which it rests, as part or part.feature.""")
    inference_note: Optional[str] = Field(default=None, description="""Why a conclusion was drawn though a deciding feature could not be seen.""")


class DerivedIdentity(ConfiguredBaseModel):
    """
    Identity of one part as derived from its features.
    """
    part: Optional[str] = Field(default=None, description="""The part of the record spoken of.""")
    identity: Optional[str] = Field(default=None, description="""Identity derived, as a term of the vocabulary.""")
    basis: Optional[list[str]] = Field(default=None, description="""Features used, as part.feature = value.""")
    confidence: Optional[ConfidenceEnum] = Field(default=None, description="""How firmly the features decide.""")


class DerivedDiagnosis(ConfiguredBaseModel):
    """
    A malformation that follows from derived facts.
    """
    term: Optional[str] = Field(default=None, description="""Term of the vocabulary.""")
    premises: Optional[list[str]] = Field(default=None, description="""Facts from which a diagnosis follows.""")


class Undetermined(ConfiguredBaseModel):
    """
    Something that could not be determined.
    """
    what: Optional[str] = Field(default=None, description="""Conclusion or identity that could not be determined.""")
    why: Optional[str] = Field(default=None, description="""Why it could not be determined and what would change that.""")


class Reconciliation(ConfiguredBaseModel):
    """
    How a description was made of two others of the same heart.
    """
    derived_from: Optional[list[str]] = Field(default=None, description="""IRI of a description, or of a part of it, from which this was taken.""")
    settled_by: Optional[str] = Field(default=None, description="""Person or role that decided between two descriptions.""")
    attributed_to: Optional[str] = Field(default=None, description="""IRI of the person that decided, such as an ORCID.""")
    settled_on: Optional[str] = Field(default=None, description="""Day on which the descriptions were reconciled.""")
    origins: Optional[list[FactOrigin]] = Field(default=None, description="""Where each fact comes from.""")
    open_questions: Optional[list[OpenQuestion]] = Field(default=None, description="""What the two descriptions differ in and nobody has decided.""")


class FactOrigin(ConfiguredBaseModel):
    """
    Where one fact of a reconciled description comes from: one of the two descriptions, both, or a decision between them.
    """
    what: str = Field(default=..., description="""Conclusion or identity that could not be determined.""")
    derived_from: Optional[list[str]] = Field(default=None, description="""IRI of a description, or of a part of it, from which this was taken.""")
    settled_by: Optional[str] = Field(default=None, description="""Person or role that decided between two descriptions.""")
    attributed_to: Optional[str] = Field(default=None, description="""IRI of the person that decided, such as an ORCID.""")
    why: Optional[str] = Field(default=None, description="""Why it could not be determined and what would change that.""")


class OpenQuestion(ConfiguredBaseModel):
    """
    Something in which two descriptions differ and on which nobody has decided yet; the reconciled description is silent on it.
    """
    what: str = Field(default=..., description="""Conclusion or identity that could not be determined.""")
    answers: Optional[list[str]] = Field(default=None, description="""What each description says, with its identifier before it.""")


class Record(ConfiguredBaseModel):
    """
    One description of one specimen by one observer.
    """
    id: str = Field(default=..., description="""Identifier of the thing inside its record; letters, digits, dot, hyphen and underscore.""")
    vocabulary_version: Optional[str] = Field(default=None, description="""Version of the vocabulary with which the record was written.""")
    collection: Optional[str] = Field(default=None, description="""Identifier of the collection that keeps the specimen.""")
    specimen: Optional[Specimen] = Field(default=None, description="""The specimen described.""")
    description: Optional[Description] = Field(default=None, description="""Who described it, when, how and in whose words.""")
    parts: Optional[list[Annotated[Union[HeartPosition,ThoracicOrgans,AbdominalOrgans,SystemicVeins,PulmonaryVeins,Atrium,AtrialSeptum,InteratrialCommunication,AtrioventricularJunctions,AtrioventricularJunction,AtrioventricularValve,Ventricle,VentricularMass,VentricularSeptum,InterventricularCommunication,OutflowTract,OutflowTracts,ArterialValve,ArterialTrunk,GreatArteries,CoronaryArteries,AorticArch,ArterialDuct,ConductionFinding,SurgicalFinding], Field(discriminator="type")]]] = Field(default=None, description="""The parts of the heart and body, in the order of sequential segmental analysis.""")
    measurements: Optional[list[Measurement]] = Field(default=None, description="""Measured numbers with unit, method, site and state of the material.""")
    evidence: Optional[list[Evidence]] = Field(default=None, description="""Photographs, sequences of video, scans, drawings and reports that show what is stated.""")
    stated: Optional[StatedConclusions] = Field(default=None, description="""What the observer concluded.""")
    derived: Optional[DerivedConclusions] = Field(default=None, description="""What the toolkit derives.""")
    reconciliation: Optional[Reconciliation] = Field(default=None, description="""How this description was made of two others.""")
    waivers: Optional[list[Waiver]] = Field(default=None, description="""Warnings that a curator looked at and confirmed.""")
    remarks: Optional[list[Remark]] = Field(default=None, description="""Free words of the catalogue that were kept as text.""")

    @field_validator('id')
    def pattern_id(cls, v):
        pattern=re.compile(r"^[A-Za-z0-9][A-Za-z0-9._-]{0,127}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid id format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid id format: {v}"
            raise ValueError(err_msg)
        return v

    @field_validator('vocabulary_version')
    def pattern_vocabulary_version(cls, v):
        pattern=re.compile(r"^[0-9]+[.][0-9]+[.][0-9]+$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid vocabulary_version format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid vocabulary_version format: {v}"
            raise ValueError(err_msg)
        return v


class Description(ConfiguredBaseModel):
    """
    Who described the specimen, when, how and in whose words.
    """
    observer: Optional[str] = Field(default=None, description="""Person or role that made the description.""")
    described_on: Optional[str] = Field(default=None, description="""Date of the description: year, year-month or full date.""")
    school: Optional[SchoolEnum] = Field(default=None, description="""School of nomenclature of the description.""")
    examination: Optional[list[ExaminationEnum]] = Field(default=None, description="""How the specimen was looked at.""")
    reader: Optional[str] = Field(default=None, description="""Which reading this is, when a specimen was read more than once.""")
    note: Optional[str] = Field(default=None, description="""Words of the observer about this thing, kept as written.""")


class Waiver(ConfiguredBaseModel):
    """
    A curator's confirmation of one warning on one record.
    """
    rule: str = Field(default=..., description="""Rule whose warning is confirmed.""")
    part: Optional[str] = Field(default=None, description="""The part of the record spoken of.""")
    other_record: Optional[str] = Field(default=None, description="""Id of the other record, where the warning is about what two records say of each other.""")
    reason: str = Field(default=..., description="""Why the curator stands by the record.""")
    confirmed_by: Optional[str] = Field(default=None, description="""Person or role that confirmed it.""")
    confirmed_on: Optional[str] = Field(default=None, description="""Date of the confirmation.""")
    premises_digest: Optional[str] = Field(default=None, description="""Digest of the facts on which the warning rested; when they change the confirmation ends.""")
    evidence_refs: Optional[list[str]] = Field(default=None, description="""Pieces of evidence in the same record on which the statement rests.""")

    @field_validator('rule')
    def pattern_rule(cls, v):
        pattern=re.compile(r"^[RSI]-[A-Z]{2,5}-[0-9]{2}[A-Z]?$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid rule format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid rule format: {v}"
            raise ValueError(err_msg)
        return v

    @field_validator('premises_digest')
    def pattern_premises_digest(cls, v):
        pattern=re.compile(r"^[0-9a-f]{16,64}$")
        if isinstance(v, list):
            for element in v:
                if isinstance(element, str) and not pattern.search(element):
                    err_msg = f"Invalid premises_digest format: {element}"
                    raise ValueError(err_msg)
        elif isinstance(v, str) and not pattern.search(v):
            err_msg = f"Invalid premises_digest format: {v}"
            raise ValueError(err_msg)
        return v


# Model rebuild
# see https://pydantic-docs.helpmanual.io/usage/models/#rebuilding-a-model
Part.model_rebuild()
FeatureObservation.model_rebuild()
Commitment.model_rebuild()
Remark.model_rebuild()
Evidence.model_rebuild()
EvidenceTarget.model_rebuild()
Measurement.model_rebuild()
Collection.model_rebuild()
Specimen.model_rebuild()
MaterialCondition.model_rebuild()
HeartPosition.model_rebuild()
ThoracicOrgans.model_rebuild()
AbdominalOrgans.model_rebuild()
SystemicVeins.model_rebuild()
PulmonaryVeins.model_rebuild()
Atrium.model_rebuild()
AtrialSeptum.model_rebuild()
InteratrialCommunication.model_rebuild()
AtrioventricularJunctions.model_rebuild()
AtrioventricularJunction.model_rebuild()
AtrioventricularValve.model_rebuild()
Ventricle.model_rebuild()
VentricularMass.model_rebuild()
VentricularSeptum.model_rebuild()
InterventricularCommunication.model_rebuild()
OutflowTract.model_rebuild()
OutflowTracts.model_rebuild()
ArterialValve.model_rebuild()
ArterialTrunk.model_rebuild()
GreatArteries.model_rebuild()
CoronaryArteries.model_rebuild()
AorticArch.model_rebuild()
ArterialDuct.model_rebuild()
ConductionFinding.model_rebuild()
SurgicalFinding.model_rebuild()
Conclusions.model_rebuild()
StatedConclusions.model_rebuild()
DerivedConclusions.model_rebuild()
ConclusionBasis.model_rebuild()
DerivedIdentity.model_rebuild()
DerivedDiagnosis.model_rebuild()
Undetermined.model_rebuild()
Reconciliation.model_rebuild()
FactOrigin.model_rebuild()
OpenQuestion.model_rebuild()
Record.model_rebuild()
Description.model_rebuild()
Waiver.model_rebuild()
