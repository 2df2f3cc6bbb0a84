"""From a record to lines of N-Triples. Written by schema/generate.py; never edit it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from chordae.rdf.terms import date, decimal, integer, keyed, many, name, term, text, uri

Add = Callable[[str], None]
Node = Mapping[str, Any]

AgeGroupEnum: dict[object, str] = {
    "fetus": "<https://w3id.org/chordae/term/fetus> .",
    "neonate": "<https://w3id.org/chordae/term/neonate> .",
    "infant": "<https://w3id.org/chordae/term/infant> .",
    "child": "<https://w3id.org/chordae/term/child> .",
    "adolescent": "<https://w3id.org/chordae/term/adolescent> .",
    "adult": "<https://w3id.org/chordae/term/adult> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AnomalousVenousSiteEnum: dict[object, str] = {
    "supracardiac": "<https://w3id.org/chordae/term/totally_anomalous_pulmonary_venous_connection_supracardiac> .",
    "cardiac": "<https://w3id.org/chordae/term/totally_anomalous_pulmonary_venous_connection_cardiac> .",
    "infracardiac": "<https://w3id.org/chordae/term/totally_anomalous_pulmonary_venous_connection_infracardiac> .",
    "mixed": "<https://w3id.org/chordae/term/totally_anomalous_pulmonary_venous_connection_mixed> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AnteroposteriorRelationEnum: dict[object, str] = {
    "anterior": "<https://w3id.org/chordae/term/anterior_position> .",
    "posterior": "<https://w3id.org/chordae/term/posterior_position> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AortaRelationEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normally_related_trunks> .",
    "mirror_normal": "<https://w3id.org/chordae/term/mirror_imaged_normal_trunks> .",
    "right": "<https://w3id.org/chordae/term/aorta_to_the_right> .",
    "left": "<https://w3id.org/chordae/term/aorta_to_the_left> .",
    "anterior": "<https://w3id.org/chordae/term/aorta_anterior> .",
    "anterior_right": "<https://w3id.org/chordae/term/aorta_anterior_right> .",
    "anterior_left": "<https://w3id.org/chordae/term/aorta_anterior_left> .",
    "right_side_by_side": "<https://w3id.org/chordae/term/aorta_right_side_by_side> .",
    "left_side_by_side": "<https://w3id.org/chordae/term/aorta_left_side_by_side> .",
    "posterior": "<https://w3id.org/chordae/term/aorta_posterior> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ApexEnum: dict[object, str] = {
    "left": "<https://w3id.org/chordae/term/apex_to_the_left> .",
    "right": "<https://w3id.org/chordae/term/apex_to_the_right> .",
    "midline": "<https://w3id.org/chordae/term/apex_in_the_midline> .",
    "inferior": "<https://w3id.org/chordae/term/apex_inferior> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ApicalTrabeculationEnum: dict[object, str] = {
    "coarse": "<https://w3id.org/chordae/term/coarse_apical_trabeculations> .",
    "fine": "<https://w3id.org/chordae/term/fine_apical_trabeculations> .",
    "neither": "<https://w3id.org/chordae/term/indeterminate_apical_trabeculations> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AppendageJunctionEnum: dict[object, str] = {
    "broad": "<https://w3id.org/chordae/term/broad_appendage_junction> .",
    "narrow": "<https://w3id.org/chordae/term/narrow_appendage_junction> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AppendageMorphologyEnum: dict[object, str] = {
    "morphologically_right": "<https://w3id.org/chordae/term/morphologically_right_atrial_appendage> .",
    "morphologically_left": "<https://w3id.org/chordae/term/morphologically_left_atrial_appendage> .",
    "indeterminate": "<https://w3id.org/chordae/term/indeterminate_appendage> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AppendagePositionEnum: dict[object, str] = {
    "usual": "<https://w3id.org/chordae/term/usual_appendage_position> .",
    "juxtaposed": "<https://w3id.org/chordae/term/juxtaposed_appendage> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AppendageShapeEnum: dict[object, str] = {
    "triangular": "<https://w3id.org/chordae/term/triangular_appendage> .",
    "tubular": "<https://w3id.org/chordae/term/tubular_appendage> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ArchBranchEnum: dict[object, str] = {
    "right_brachiocephalic": "<https://w3id.org/chordae/term/right_brachiocephalic_artery> .",
    "left_brachiocephalic": "<https://w3id.org/chordae/term/left_brachiocephalic_artery> .",
    "right_common_carotid": "<https://w3id.org/chordae/term/right_common_carotid_artery> .",
    "left_common_carotid": "<https://w3id.org/chordae/term/left_common_carotid_artery> .",
    "right_subclavian": "<https://w3id.org/chordae/term/right_subclavian_artery> .",
    "left_subclavian": "<https://w3id.org/chordae/term/left_subclavian_artery> .",
    "vertebral": "<https://w3id.org/chordae/term/vertebral_artery> .",
}

ArchSideEnum: dict[object, str] = {
    "left": "<https://w3id.org/chordae/term/left_aortic_arch> .",
    "right": "<https://w3id.org/chordae/term/right_aortic_arch> .",
    "double": "<https://w3id.org/chordae/term/double_aortic_arch> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ArrangementSourceEnum: dict[object, str] = {
    "seen_in_specimen": "<https://w3id.org/chordae/term/seen_in_specimen> .",
    "autopsy_report": "<https://w3id.org/chordae/term/autopsy_report> .",
    "clinical_report": "<https://w3id.org/chordae/term/clinical_report> .",
}

ArterialTargetEnum: dict[object, str] = {
    "aortic": "<https://w3id.org/chordae/term/aortic_valve> .",
    "pulmonary": "<https://w3id.org/chordae/term/pulmonary_valve> .",
    "truncal": "<https://w3id.org/chordae/term/truncal_valve> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AssessabilityReasonEnum: dict[object, str] = {
    "removed_at_surgery": "<https://w3id.org/chordae/term/removed_at_surgery> .",
    "removed_at_dissection": "<https://w3id.org/chordae/term/removed_at_dissection> .",
    "transected": "<https://w3id.org/chordae/term/transected> .",
    "damaged": "<https://w3id.org/chordae/term/damaged> .",
    "obscured": "<https://w3id.org/chordae/term/obscured> .",
    "not_in_material": "<https://w3id.org/chordae/term/not_in_material> .",
}

AtrialArrangementEnum: dict[object, str] = {
    "usual": "<https://w3id.org/chordae/term/usual_atrial_arrangement> .",
    "mirror_image": "<https://w3id.org/chordae/term/mirror_imaged_atrial_arrangement> .",
    "right_isomerism": "<https://w3id.org/chordae/term/right_isomerism> .",
    "left_isomerism": "<https://w3id.org/chordae/term/left_isomerism> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AtrialIdentityEnum: dict[object, str] = {
    "morphologically_right_atrium": "<https://w3id.org/chordae/term/morphologically_right_atrium> .",
    "morphologically_left_atrium": "<https://w3id.org/chordae/term/morphologically_left_atrium> .",
    "common_atrium": "<https://w3id.org/chordae/term/common_atrium> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AtrialSideEnum: dict[object, str] = {
    "right_sided_atrium": "<https://w3id.org/chordae/term/right_sided_atrium> .",
    "left_sided_atrium": "<https://w3id.org/chordae/term/left_sided_atrium> .",
    "both_atria": "<https://w3id.org/chordae/term/both_atria> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

AtrioventricularConnectionEnum: dict[object, str] = {
    "concordant": "<https://w3id.org/chordae/term/concordant_atrioventricular_connections> .",
    "discordant": "<https://w3id.org/chordae/term/discordant_atrioventricular_connections> .",
    "mixed": "<https://w3id.org/chordae/term/mixed_atrioventricular_connections> .",
    "double_inlet_lv": "<https://w3id.org/chordae/term/double_inlet_left_ventricle> .",
    "double_inlet_rv": "<https://w3id.org/chordae/term/double_inlet_right_ventricle> .",
    "double_inlet_solitary": "<https://w3id.org/chordae/term/double_inlet_solitary_ventricle> .",
    "absent_right": "<https://w3id.org/chordae/term/absent_right_atrioventricular_connection> .",
    "absent_left": "<https://w3id.org/chordae/term/absent_left_atrioventricular_connection> .",
    "uniatrial_biventricular": "<https://w3id.org/chordae/term/uniatrial_biventricular_connection> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

BorderCategoryEnum: dict[object, str] = {
    "perimembranous": "<https://w3id.org/chordae/term/perimembranous_ventricular_septal_defect> .",
    "muscular": "<https://w3id.org/chordae/term/muscular_ventricular_septal_defect> .",
    "juxta_arterial": "<https://w3id.org/chordae/term/doubly_committed_juxta_arterial_ventricular_septal_defect> .",
    "juxta_arterial_perimembranous": "<https://w3id.org/chordae/term/juxta_arterial_perimembranous_defect> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

BronchusCrossedEnum: dict[object, str] = {
    "left": "<https://w3id.org/chordae/term/crosses_left_bronchus> .",
    "right": "<https://w3id.org/chordae/term/crosses_right_bronchus> .",
    "both": "<https://w3id.org/chordae/term/crosses_both_bronchi> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

BronchusEnum: dict[object, str] = {
    "morphologically_right": "<https://w3id.org/chordae/term/morphologically_right_bronchus> .",
    "morphologically_left": "<https://w3id.org/chordae/term/morphologically_left_bronchus> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CardiacPositionEnum: dict[object, str] = {
    "left_sided": "<https://w3id.org/chordae/term/left_sided_heart> .",
    "right_sided": "<https://w3id.org/chordae/term/right_sided_heart> .",
    "midline": "<https://w3id.org/chordae/term/midline_heart> .",
    "extrathoracic": "<https://w3id.org/chordae/term/extrathoracic_heart> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CavalAorticRelationEnum: dict[object, str] = {
    "usual": "<https://w3id.org/chordae/term/caval_vein_right_of_aorta> .",
    "mirror_image": "<https://w3id.org/chordae/term/caval_vein_left_of_aorta> .",
    "same_side": "<https://w3id.org/chordae/term/caval_vein_and_aorta_on_one_side> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CavalDrainageEnum: dict[object, str] = {
    "coronary_sinus": "<https://w3id.org/chordae/term/left_superior_caval_vein_to_coronary_sinus> .",
    "roof_of_left_sided_atrium": "<https://w3id.org/chordae/term/left_superior_caval_vein_to_left_atrium> .",
    "right_sided_atrium": "<https://w3id.org/chordae/term/left_superior_caval_vein_to_right_sided_atrium> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CertaintyEnum: dict[object, str] = {
    "certain": "<https://w3id.org/chordae/term/certain> .",
    "probable": "<https://w3id.org/chordae/term/probable> .",
    "possible": "<https://w3id.org/chordae/term/possible> .",
}

ChamberSizeEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normal_size> .",
    "hypoplastic": "<https://w3id.org/chordae/term/hypoplastic_chamber> .",
    "dilated": "<https://w3id.org/chordae/term/dilated_chamber> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CommitmentEnum: dict[object, str] = {
    "subaortic": "<https://w3id.org/chordae/term/subaortic_commitment> .",
    "subpulmonary": "<https://w3id.org/chordae/term/subpulmonary_commitment> .",
    "doubly_committed": "<https://w3id.org/chordae/term/doubly_committed> .",
    "non_committed": "<https://w3id.org/chordae/term/non_committed> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CommunicationPatencyEnum: dict[object, str] = {
    "open": "<https://w3id.org/chordae/term/open_communication> .",
    "closed_by_patch": "<https://w3id.org/chordae/term/closed_by_patch> .",
    "closed_spontaneously": "<https://w3id.org/chordae/term/closed_spontaneously> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CompletenessEnum: dict[object, str] = {
    "complete": "<https://w3id.org/chordae/term/complete_ventricle> .",
    "incomplete": "<https://w3id.org/chordae/term/incomplete_ventricle> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ConclusionNameEnum: dict[object, str] = {
    "atrial_arrangement": "<https://w3id.org/chordae/term/atrial_arrangement> .",
    "topology": "<https://w3id.org/chordae/term/ventricular_topology> .",
    "av_connection": "<https://w3id.org/chordae/term/atrioventricular_connection> .",
    "va_connection": "<https://w3id.org/chordae/term/ventriculoarterial_connection> .",
    "trunk_identity": "<https://w3id.org/chordae/term/arterial_trunk_identity> .",
    "arch_side": "<https://w3id.org/chordae/term/aortic_arch_side> .",
}

ConductionStructureEnum: dict[object, str] = {
    "sinus_node": "<https://w3id.org/chordae/term/sinus_node> .",
    "atrioventricular_node": "<https://w3id.org/chordae/term/atrioventricular_node> .",
    "penetrating_bundle": "<https://w3id.org/chordae/term/penetrating_bundle> .",
    "left_bundle_branch": "<https://w3id.org/chordae/term/left_bundle_branch> .",
    "right_bundle_branch": "<https://w3id.org/chordae/term/right_bundle_branch> .",
}

ConfidenceEnum: dict[object, str] = {
    "decided": "<https://w3id.org/chordae/term/decided_identity> .",
    "supported": "<https://w3id.org/chordae/term/supported_identity> .",
    "undetermined": "<https://w3id.org/chordae/term/undetermined_identity> .",
    "conflict": "<https://w3id.org/chordae/term/conflicting_identity> .",
}

ConsentEnum: dict[object, str] = {
    "written_consent": "<https://w3id.org/chordae/term/written_consent> .",
    "post_mortem_consent": "<https://w3id.org/chordae/term/post_mortem_consent> .",
    "coroner": "<https://w3id.org/chordae/term/coroner> .",
    "historic": "<https://w3id.org/chordae/term/historic_holding> .",
    "unknown_consent": "<https://w3id.org/chordae/term/unknown_consent> .",
}

ConsentScopeEnum: dict[object, str] = {
    "teaching": "<https://w3id.org/chordae/term/teaching> .",
    "research": "<https://w3id.org/chordae/term/research> .",
    "images": "<https://w3id.org/chordae/term/images> .",
    "public_display": "<https://w3id.org/chordae/term/public_display> .",
    "three_dimensional_models": "<https://w3id.org/chordae/term/three_dimensional_models> .",
    "loan": "<https://w3id.org/chordae/term/loan_to_others> .",
}

CoronaryDominanceEnum: dict[object, str] = {
    "right": "<https://w3id.org/chordae/term/right_coronary_dominance> .",
    "left": "<https://w3id.org/chordae/term/left_coronary_dominance> .",
    "balanced": "<https://w3id.org/chordae/term/balanced_coronary_dominance> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CoronaryOriginEnum: dict[object, str] = {
    "sinus_1": "<https://w3id.org/chordae/term/leiden_sinus_1> .",
    "sinus_2": "<https://w3id.org/chordae/term/leiden_sinus_2> .",
    "non_facing_sinus": "<https://w3id.org/chordae/term/non_facing_sinus> .",
    "above_sinuses": "<https://w3id.org/chordae/term/origin_above_sinuses> .",
    "pulmonary_trunk": "<https://w3id.org/chordae/term/origin_from_pulmonary_trunk> .",
    "other_coronary_artery": "<https://w3id.org/chordae/term/origin_from_other_coronary_artery> .",
    "absent": "<https://w3id.org/chordae/term/absent_coronary_orifice> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CoronarySinusEnum: dict[object, str] = {
    "present": "<https://w3id.org/chordae/term/coronary_sinus_present> .",
    "absent": "<https://w3id.org/chordae/term/coronary_sinus_absent> .",
    "unroofed": "<https://w3id.org/chordae/term/unroofed_coronary_sinus> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

CutLevelEnum: dict[object, str] = {
    "not_cut": "<https://w3id.org/chordae/term/not_cut> .",
    "sinutubular_junction": "<https://w3id.org/chordae/term/cut_at_sinutubular_junction> .",
    "ascending": "<https://w3id.org/chordae/term/cut_in_ascending_part> .",
    "arch": "<https://w3id.org/chordae/term/cut_in_arch> .",
    "beyond_arch": "<https://w3id.org/chordae/term/cut_beyond_arch> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

DefectGeographyEnum: dict[object, str] = {
    "central": "<https://w3id.org/chordae/term/central_perimembranous_position> .",
    "inlet": "<https://w3id.org/chordae/term/inlet_position> .",
    "trabecular": "<https://w3id.org/chordae/term/trabecular_position> .",
    "midseptal": "<https://w3id.org/chordae/term/midseptal_position> .",
    "apical": "<https://w3id.org/chordae/term/apical_position> .",
    "posteroinferior": "<https://w3id.org/chordae/term/posteroinferior_position> .",
    "anterosuperior": "<https://w3id.org/chordae/term/anterosuperior_position> .",
    "outlet": "<https://w3id.org/chordae/term/outlet_position> .",
    "confluent": "<https://w3id.org/chordae/term/confluent_position> .",
    "atrioventricular_septal": "<https://w3id.org/chordae/term/ventricular_component_of_avsd> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

DisharmonyEnum: dict[object, str] = {
    "confirmed": "<https://w3id.org/chordae/term/confirmed_disharmony> .",
    "not_confirmed": "<https://w3id.org/chordae/term/unconfirmed_disharmony> .",
}

DividedAtriumEnum: dict[object, str] = {
    "left": "<https://w3id.org/chordae/term/divided_left_atrium> .",
    "right": "<https://w3id.org/chordae/term/divided_right_atrium> .",
    "none": "<https://w3id.org/chordae/term/no_dividing_shelf> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

DuctPatencyEnum: dict[object, str] = {
    "patent": "<https://w3id.org/chordae/term/patent_arterial_duct> .",
    "closed": "<https://w3id.org/chordae/term/closed_arterial_duct> .",
    "ligament": "<https://w3id.org/chordae/term/arterial_ligament> .",
    "absent": "<https://w3id.org/chordae/term/absent_arterial_duct> .",
    "not_identified": "<https://w3id.org/chordae/term/arterial_duct_not_identified> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

DuctSideEnum: dict[object, str] = {
    "left_sided": "<https://w3id.org/chordae/term/left_sided> .",
    "right_sided": "<https://w3id.org/chordae/term/right_sided> .",
    "bilateral": "<https://w3id.org/chordae/term/bilateral_structure> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

EvidenceKindEnum: dict[object, str] = {
    "photograph": "<https://w3id.org/chordae/term/photograph> .",
    "video": "<https://w3id.org/chordae/term/video_sequence> .",
    "scan": "<https://w3id.org/chordae/term/volume_scan> .",
    "drawing": "<https://w3id.org/chordae/term/drawing> .",
    "report": "<https://w3id.org/chordae/term/written_report> .",
    "histology": "<https://w3id.org/chordae/term/histological_section> .",
}

ExaminationEnum: dict[object, str] = {
    "naked_eye": "<https://w3id.org/chordae/term/naked_eye_examination> .",
    "magnifier": "<https://w3id.org/chordae/term/magnifier_examination> .",
    "probe": "<https://w3id.org/chordae/term/probe_examination> .",
    "endoscope": "<https://w3id.org/chordae/term/endoscope_examination> .",
    "scan": "<https://w3id.org/chordae/term/scan_examination> .",
    "histology": "<https://w3id.org/chordae/term/histological_examination> .",
    "images": "<https://w3id.org/chordae/term/examination_of_images> .",
}

FibrousContinuityEnum: dict[object, str] = {
    "mitral": "<https://w3id.org/chordae/term/continuity_with_mitral_valve> .",
    "tricuspid": "<https://w3id.org/chordae/term/continuity_with_tricuspid_valve> .",
    "both": "<https://w3id.org/chordae/term/continuity_with_both_valves> .",
    "common_valve": "<https://w3id.org/chordae/term/continuity_with_common_valve> .",
    "none": "<https://w3id.org/chordae/term/no_fibrous_continuity> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

FloorTissueEnum: dict[object, str] = {
    "muscular": "<https://w3id.org/chordae/term/muscular_atrial_floor> .",
    "fibrofatty": "<https://w3id.org/chordae/term/fibrofatty_groove_tissue> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

FusionPatternEnum: dict[object, str] = {
    "right_left": "<https://w3id.org/chordae/term/right_left_fusion> .",
    "right_non": "<https://w3id.org/chordae/term/right_non_coronary_fusion> .",
    "left_non": "<https://w3id.org/chordae/term/left_non_coronary_fusion> .",
    "none": "<https://w3id.org/chordae/term/no_fusion> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

GutRotationEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normal_gut_rotation> .",
    "malrotated": "<https://w3id.org/chordae/term/malrotated_gut> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

HingeOffsetEnum: dict[object, str] = {
    "usual": "<https://w3id.org/chordae/term/usual_hinge_offset> .",
    "level": "<https://w3id.org/chordae/term/level_hinges> .",
    "reversed": "<https://w3id.org/chordae/term/reversed_hinge_offset> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InferiorCavalVeinEnum: dict[object, str] = {
    "continuous": "<https://w3id.org/chordae/term/uninterrupted_inferior_caval_vein> .",
    "interrupted": "<https://w3id.org/chordae/term/interrupted_inferior_caval_vein> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InfundibularMuscleEnum: dict[object, str] = {
    "complete": "<https://w3id.org/chordae/term/complete_muscular_infundibulum> .",
    "incomplete": "<https://w3id.org/chordae/term/incomplete_muscular_infundibulum> .",
    "absent": "<https://w3id.org/chordae/term/absent_muscular_infundibulum> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InfundibulumPatternEnum: dict[object, str] = {
    "subaortic_only": "<https://w3id.org/chordae/term/subaortic_infundibulum> .",
    "subpulmonary_only": "<https://w3id.org/chordae/term/subpulmonary_infundibulum> .",
    "bilateral": "<https://w3id.org/chordae/term/bilateral_infundibulums> .",
    "bilaterally_absent": "<https://w3id.org/chordae/term/bilaterally_absent_infundibulums> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InteratrialLocationEnum: dict[object, str] = {
    "oval_fossa": "<https://w3id.org/chordae/term/oval_fossa_defect> .",
    "patent_oval_foramen": "<https://w3id.org/chordae/term/patent_oval_foramen> .",
    "primum": "<https://w3id.org/chordae/term/ostium_primum_defect> .",
    "superior_sinus_venosus": "<https://w3id.org/chordae/term/superior_sinus_venosus_defect> .",
    "inferior_sinus_venosus": "<https://w3id.org/chordae/term/inferior_sinus_venosus_defect> .",
    "coronary_sinus": "<https://w3id.org/chordae/term/coronary_sinus_defect> .",
    "vestibular": "<https://w3id.org/chordae/term/vestibular_defect> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InterruptionSiteEnum: dict[object, str] = {
    "none": "<https://w3id.org/chordae/term/uninterrupted_arch> .",
    "distal_to_subclavian": "<https://w3id.org/chordae/term/interruption_distal_to_subclavian> .",
    "between_carotid_and_subclavian": "<https://w3id.org/chordae/term/interruption_between_carotid_and_subclavian> .",
    "between_carotids": "<https://w3id.org/chordae/term/interruption_between_carotids> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

InterruptionTypeEnum: dict[object, str] = {
    "A": "<https://w3id.org/chordae/term/interrupted_aortic_arch_type_a> .",
    "B": "<https://w3id.org/chordae/term/interrupted_aortic_arch_type_b> .",
    "C": "<https://w3id.org/chordae/term/interrupted_aortic_arch_type_c> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

JunctionPatternEnum: dict[object, str] = {
    "separate": "<https://w3id.org/chordae/term/separate_atrioventricular_junctions> .",
    "common": "<https://w3id.org/chordae/term/common_atrioventricular_junction> .",
    "solitary": "<https://w3id.org/chordae/term/solitary_atrioventricular_junction> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

LateralRelationEnum: dict[object, str] = {
    "right_sided": "<https://w3id.org/chordae/term/right_sided> .",
    "left_sided": "<https://w3id.org/chordae/term/left_sided> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

LeafletEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normal_leaflet> .",
    "displaced": "<https://w3id.org/chordae/term/displaced_leaflet> .",
    "dysplastic": "<https://w3id.org/chordae/term/dysplastic_leaflet> .",
    "tethered": "<https://w3id.org/chordae/term/tethered_leaflet> .",
    "cleft": "<https://w3id.org/chordae/term/cleft_leaflet> .",
    "fused": "<https://w3id.org/chordae/term/fused_leaflet> .",
    "absent": "<https://w3id.org/chordae/term/absent_leaflet> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

MalalignmentEnum: dict[object, str] = {
    "none": "<https://w3id.org/chordae/term/no_malalignment> .",
    "anterior_outlet": "<https://w3id.org/chordae/term/anteriorly_malaligned_outlet_septum> .",
    "posterior_outlet": "<https://w3id.org/chordae/term/posteriorly_malaligned_outlet_septum> .",
    "inlet": "<https://w3id.org/chordae/term/malaligned_inlet_septum> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

MaterialEnum: dict[object, str] = {
    "whole_body": "<https://w3id.org/chordae/term/whole_body> .",
    "thoracic_and_abdominal_organs": "<https://w3id.org/chordae/term/thoracic_and_abdominal_organs> .",
    "heart_lung_block": "<https://w3id.org/chordae/term/heart_lung_block> .",
    "isolated_heart": "<https://w3id.org/chordae/term/isolated_heart> .",
    "heart_slices": "<https://w3id.org/chordae/term/heart_slices> .",
    "heart_part": "<https://w3id.org/chordae/term/heart_part> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

MaterialStateEnum: dict[object, str] = {
    "fresh": "<https://w3id.org/chordae/term/fresh> .",
    "formalin_fixed": "<https://w3id.org/chordae/term/formalin_fixed> .",
    "alcohol": "<https://w3id.org/chordae/term/alcohol> .",
    "glycerin": "<https://w3id.org/chordae/term/glycerin> .",
    "wax_infiltrated": "<https://w3id.org/chordae/term/wax_infiltrated> .",
    "plastinated": "<https://w3id.org/chordae/term/plastinated> .",
    "dry": "<https://w3id.org/chordae/term/dry> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ObservationStateEnum: dict[object, str] = {
    "present": "<https://w3id.org/chordae/term/present> .",
    "absent": "<https://w3id.org/chordae/term/absent> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ObstructionEnum: dict[object, str] = {
    "none": "<https://w3id.org/chordae/term/no_obstruction> .",
    "subvalvar": "<https://w3id.org/chordae/term/subvalvar_obstruction> .",
    "valvar": "<https://w3id.org/chordae/term/valvar_obstruction> .",
    "supravalvar": "<https://w3id.org/chordae/term/supravalvar_obstruction> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OrganArrangementEnum: dict[object, str] = {
    "usual": "<https://w3id.org/chordae/term/usual_organ_arrangement> .",
    "mirror_image": "<https://w3id.org/chordae/term/mirror_imaged_organ_arrangement> .",
    "right_isomerism": "<https://w3id.org/chordae/term/right_bronchial_isomerism> .",
    "left_isomerism": "<https://w3id.org/chordae/term/left_bronchial_isomerism> .",
    "mixed": "<https://w3id.org/chordae/term/abdominal_heterotaxy> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OrganSideEnum: dict[object, str] = {
    "right_sided": "<https://w3id.org/chordae/term/right_sided> .",
    "left_sided": "<https://w3id.org/chordae/term/left_sided> .",
    "midline": "<https://w3id.org/chordae/term/midline_position> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OrificeLevelEnum: dict[object, str] = {
    "in_sinus": "<https://w3id.org/chordae/term/orifice_in_sinus> .",
    "at_sinutubular_junction": "<https://w3id.org/chordae/term/orifice_at_sinutubular_junction> .",
    "above_sinutubular_junction": "<https://w3id.org/chordae/term/orifice_above_sinutubular_junction> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OutletInletEnum: dict[object, str] = {
    "equal": "<https://w3id.org/chordae/term/outlet_equal_to_inlet> .",
    "outlet_longer": "<https://w3id.org/chordae/term/outlet_longer_than_inlet> .",
    "inlet_longer": "<https://w3id.org/chordae/term/inlet_longer_than_outlet> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OutletSeptumDeviationEnum: dict[object, str] = {
    "none": "<https://w3id.org/chordae/term/aligned_outlet_septum> .",
    "anterior": "<https://w3id.org/chordae/term/anteriorly_malaligned_outlet_septum> .",
    "posterior": "<https://w3id.org/chordae/term/posteriorly_malaligned_outlet_septum> .",
    "perpendicular": "<https://w3id.org/chordae/term/perpendicular_outlet_septum> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

OutletSeptumEnum: dict[object, str] = {
    "muscular": "<https://w3id.org/chordae/term/muscular_outlet_septum> .",
    "fibrous": "<https://w3id.org/chordae/term/fibrous_outlet_septum> .",
    "absent": "<https://w3id.org/chordae/term/absent_outlet_septum> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

PapillaryPatternEnum: dict[object, str] = {
    "paired": "<https://w3id.org/chordae/term/paired_papillary_muscles> .",
    "multiple_small": "<https://w3id.org/chordae/term/multiple_small_papillary_muscles> .",
    "single_group": "<https://w3id.org/chordae/term/single_papillary_group> .",
    "arcade": "<https://w3id.org/chordae/term/papillary_arcade> .",
    "absent": "<https://w3id.org/chordae/term/absent_papillary_muscles> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

PectinateExtentEnum: dict[object, str] = {
    "to_crux": "<https://w3id.org/chordae/term/pectinate_muscles_to_crux> .",
    "confined_to_appendage": "<https://w3id.org/chordae/term/pectinate_muscles_confined_to_appendage> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

PlaneOfClosureEnum: dict[object, str] = {
    "hole_itself": "<https://w3id.org/chordae/term/plane_of_the_hole> .",
    "baffle_plane": "<https://w3id.org/chordae/term/plane_of_the_baffle> .",
    "crest_to_outlet_septum": "<https://w3id.org/chordae/term/plane_of_the_septal_crest> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

PreparationEnum: dict[object, str] = {
    "intact": "<https://w3id.org/chordae/term/intact_specimen> .",
    "opened_along_flow": "<https://w3id.org/chordae/term/opened_along_flow> .",
    "window_dissection": "<https://w3id.org/chordae/term/window_dissection> .",
    "sliced": "<https://w3id.org/chordae/term/sliced> .",
    "sections_taken": "<https://w3id.org/chordae/term/sections_taken> .",
    "injected": "<https://w3id.org/chordae/term/injected> .",
}

PresenceEnum: dict[object, str] = {
    "present": "<https://w3id.org/chordae/term/present> .",
    "absent": "<https://w3id.org/chordae/term/absent> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ProcedureEnum: dict[object, str] = {
    "patch": "<https://w3id.org/chordae/term/surgical_patch> .",
    "conduit": "<https://w3id.org/chordae/term/surgical_conduit> .",
    "band": "<https://w3id.org/chordae/term/pulmonary_arterial_band> .",
    "shunt": "<https://w3id.org/chordae/term/surgical_shunt> .",
    "valve_prosthesis": "<https://w3id.org/chordae/term/prosthetic_valve> .",
    "excision": "<https://w3id.org/chordae/term/surgical_excision> .",
    "stitches": "<https://w3id.org/chordae/term/surgical_stitches> .",
}

PulmonaryOriginEnum: dict[object, str] = {
    "short_common": "<https://w3id.org/chordae/term/common_pulmonary_stem> .",
    "close_separate": "<https://w3id.org/chordae/term/close_separate_pulmonary_origins> .",
    "wide_separate": "<https://w3id.org/chordae/term/wide_separate_pulmonary_origins> .",
    "intermediate": "<https://w3id.org/chordae/term/intermediate_pulmonary_origin> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

PulmonaryVenousConnectionEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normal_pulmonary_venous_connection> .",
    "partially_anomalous": "<https://w3id.org/chordae/term/partially_anomalous_pulmonary_venous_connection> .",
    "totally_anomalous": "<https://w3id.org/chordae/term/totally_anomalous_pulmonary_venous_connection> .",
    "anomalous_with_isomerism": "<https://w3id.org/chordae/term/pulmonary_veins_anomalous_in_isomerism> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

QuantityEnum: dict[object, str] = {
    "weight": "<https://w3id.org/chordae/term/heart_weight> .",
    "length": "<https://w3id.org/chordae/term/length> .",
    "width": "<https://w3id.org/chordae/term/width> .",
    "diameter": "<https://w3id.org/chordae/term/diameter> .",
    "circumference": "<https://w3id.org/chordae/term/circumference> .",
    "wall_thickness": "<https://w3id.org/chordae/term/wall_thickness> .",
    "area": "<https://w3id.org/chordae/term/area> .",
    "hinge_offset": "<https://w3id.org/chordae/term/hinge_offset> .",
    "z_score": "<https://w3id.org/chordae/term/z_score> .",
    "age_days": "<https://w3id.org/chordae/term/age_in_days> .",
    "gestational_weeks": "<https://w3id.org/chordae/term/gestational_age_in_weeks> .",
}

RastelliEnum: dict[object, str] = {
    "A": "<https://w3id.org/chordae/term/superior_bridging_leaflet_type_a> .",
    "B": "<https://w3id.org/chordae/term/superior_bridging_leaflet_type_b> .",
    "C": "<https://w3id.org/chordae/term/superior_bridging_leaflet_type_c> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

RimEnum: dict[object, str] = {
    "muscular": "<https://w3id.org/chordae/term/muscular_rim> .",
    "fibrous": "<https://w3id.org/chordae/term/fibrous_rim> .",
    "outlet_septum": "<https://w3id.org/chordae/term/outlet_septum_rim> .",
    "arterial_valves": "<https://w3id.org/chordae/term/arterial_valvar_rim> .",
    "absent": "<https://w3id.org/chordae/term/absent_rim> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SchoolEnum: dict[object, str] = {
    "european": "<https://w3id.org/chordae/term/european_school> .",
    "north_american": "<https://w3id.org/chordae/term/north_american_school> .",
    "mixed": "<https://w3id.org/chordae/term/mixed_nomenclature> .",
}

SeptalAlignmentEnum: dict[object, str] = {
    "aligned": "<https://w3id.org/chordae/term/aligned_septa> .",
    "malaligned": "<https://w3id.org/chordae/term/malaligned_septa> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SeptalIntegrityEnum: dict[object, str] = {
    "intact": "<https://w3id.org/chordae/term/intact_septum> .",
    "deficient": "<https://w3id.org/chordae/term/deficient_septum> .",
    "absent": "<https://w3id.org/chordae/term/absent_septum> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SeptalSurfaceEnum: dict[object, str] = {
    "coarse": "<https://w3id.org/chordae/term/coarse_septal_surface> .",
    "smooth": "<https://w3id.org/chordae/term/smooth_septal_surface> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SexEnum: dict[object, str] = {
    "female": "<https://w3id.org/chordae/term/female_sex> .",
    "male": "<https://w3id.org/chordae/term/male_sex> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SideEnum: dict[object, str] = {
    "right_sided": "<https://w3id.org/chordae/term/right_sided> .",
    "left_sided": "<https://w3id.org/chordae/term/left_sided> .",
    "midline": "<https://w3id.org/chordae/term/midline_position> .",
    "common": "<https://w3id.org/chordae/term/common_structure> .",
    "solitary": "<https://w3id.org/chordae/term/solitary_structure> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

SoughtEnum: dict[object, str] = {
    "slices": "<https://w3id.org/chordae/term/sought_in_slices> .",
    "scan": "<https://w3id.org/chordae/term/sought_by_scan> .",
    "probe": "<https://w3id.org/chordae/term/sought_by_probe> .",
    "not_sought": "<https://w3id.org/chordae/term/not_sought> .",
}

SpleenEnum: dict[object, str] = {
    "left_sided": "<https://w3id.org/chordae/term/left_sided_spleen> .",
    "right_sided": "<https://w3id.org/chordae/term/right_sided_spleen> .",
    "absent": "<https://w3id.org/chordae/term/asplenia> .",
    "multiple": "<https://w3id.org/chordae/term/multiple_spleens> .",
    "other": "<https://w3id.org/chordae/term/other_splenic_form> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

StraddlingDegreeEnum: dict[object, str] = {
    "near_crest": "<https://w3id.org/chordae/term/straddling_to_near_crest> .",
    "along_septum": "<https://w3id.org/chordae/term/straddling_along_septum> .",
    "far_wall": "<https://w3id.org/chordae/term/straddling_to_far_wall> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TopologyEnum: dict[object, str] = {
    "right_hand": "<https://w3id.org/chordae/term/right_hand_topology> .",
    "left_hand": "<https://w3id.org/chordae/term/left_hand_topology> .",
    "undetermined": "<https://w3id.org/chordae/term/undetermined_topology> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TrunkCalibreEnum: dict[object, str] = {
    "normal": "<https://w3id.org/chordae/term/normal_calibre> .",
    "hypoplastic": "<https://w3id.org/chordae/term/hypoplastic_trunk> .",
    "atretic": "<https://w3id.org/chordae/term/atretic_trunk> .",
    "dilated": "<https://w3id.org/chordae/term/dilated_trunk> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TrunkCourseEnum: dict[object, str] = {
    "spiral": "<https://w3id.org/chordae/term/spiralling_trunks> .",
    "parallel": "<https://w3id.org/chordae/term/parallel_trunks> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TrunkDominanceEnum: dict[object, str] = {
    "aortic": "<https://w3id.org/chordae/term/aortic_dominance> .",
    "pulmonary": "<https://w3id.org/chordae/term/pulmonary_dominance> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TrunkIdentityEnum: dict[object, str] = {
    "aorta": "<https://w3id.org/chordae/term/aorta> .",
    "pulmonary_trunk": "<https://w3id.org/chordae/term/pulmonary_trunk> .",
    "common_arterial_trunk": "<https://w3id.org/chordae/term/common_trunk> .",
    "solitary_arterial_trunk": "<https://w3id.org/chordae/term/solitary_trunk> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

TwoLeafletTypeEnum: dict[object, str] = {
    "fused": "<https://w3id.org/chordae/term/fused_two_leaflet_valve> .",
    "two_sinus": "<https://w3id.org/chordae/term/two_sinus_valve> .",
    "partial_fusion": "<https://w3id.org/chordae/term/partial_fusion_valve> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ValvarOrificesEnum: dict[object, str] = {
    "two_valves": "<https://w3id.org/chordae/term/two_atrioventricular_valves> .",
    "common_orifice": "<https://w3id.org/chordae/term/common_valvar_orifice> .",
    "separate_orifices": "<https://w3id.org/chordae/term/separate_valvar_orifices> .",
    "one_valve": "<https://w3id.org/chordae/term/solitary_atrioventricular_valve> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ValvePatencyEnum: dict[object, str] = {
    "patent": "<https://w3id.org/chordae/term/patent_valve> .",
    "imperforate": "<https://w3id.org/chordae/term/imperforate_valve> .",
    "replaced": "<https://w3id.org/chordae/term/replaced_valve> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ValveTypeEnum: dict[object, str] = {
    "tricuspid": "<https://w3id.org/chordae/term/tricuspid_valve> .",
    "mitral": "<https://w3id.org/chordae/term/mitral_valve> .",
    "common": "<https://w3id.org/chordae/term/common_atrioventricular_valve> .",
    "right_atrioventricular": "<https://w3id.org/chordae/term/right_atrioventricular_valve> .",
    "left_atrioventricular": "<https://w3id.org/chordae/term/left_atrioventricular_valve> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

VentriclePositionEnum: dict[object, str] = {
    "right_sided": "<https://w3id.org/chordae/term/right_sided> .",
    "left_sided": "<https://w3id.org/chordae/term/left_sided> .",
    "anterior": "<https://w3id.org/chordae/term/anterior_position> .",
    "posterior": "<https://w3id.org/chordae/term/posterior_position> .",
    "superior": "<https://w3id.org/chordae/term/superior_position> .",
    "inferior": "<https://w3id.org/chordae/term/inferior_position> .",
}

VentricularBalanceEnum: dict[object, str] = {
    "balanced": "<https://w3id.org/chordae/term/balanced_ventricles> .",
    "right_dominant": "<https://w3id.org/chordae/term/right_ventricular_dominance> .",
    "left_dominant": "<https://w3id.org/chordae/term/left_ventricular_dominance> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

VentricularIdentityEnum: dict[object, str] = {
    "morphologically_right_ventricle": "<https://w3id.org/chordae/term/morphologically_right_ventricle> .",
    "morphologically_left_ventricle": "<https://w3id.org/chordae/term/morphologically_left_ventricle> .",
    "solitary_indeterminate_ventricle": "<https://w3id.org/chordae/term/solitary_indeterminate_ventricle> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

VentriculoarterialConnectionEnum: dict[object, str] = {
    "concordant": "<https://w3id.org/chordae/term/concordant_ventriculoarterial_connections> .",
    "discordant": "<https://w3id.org/chordae/term/discordant_ventriculoarterial_connections> .",
    "double_outlet_rv": "<https://w3id.org/chordae/term/double_outlet_right_ventricle> .",
    "double_outlet_lv": "<https://w3id.org/chordae/term/double_outlet_left_ventricle> .",
    "double_outlet_both": "<https://w3id.org/chordae/term/double_outlet_of_both_ventricles> .",
    "double_outlet_solitary": "<https://w3id.org/chordae/term/double_outlet_solitary_ventricle> .",
    "single_outlet_common_trunk": "<https://w3id.org/chordae/term/single_outlet_common_arterial_trunk> .",
    "single_outlet_solitary_trunk": "<https://w3id.org/chordae/term/single_outlet_solitary_arterial_trunk> .",
    "single_outlet_pulmonary_atresia": "<https://w3id.org/chordae/term/single_outlet_aorta_with_pulmonary_atresia> .",
    "single_outlet_aortic_atresia": "<https://w3id.org/chordae/term/single_outlet_pulmonary_trunk_with_aortic_atresia> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

VerticalRelationEnum: dict[object, str] = {
    "superior": "<https://w3id.org/chordae/term/superior_position> .",
    "inferior": "<https://w3id.org/chordae/term/inferior_position> .",
    "not_assessable": "<https://w3id.org/chordae/term/not_assessable> .",
    "not_examined": "<https://w3id.org/chordae/term/not_examined> .",
}

ViewingConventionEnum: dict[object, str] = {
    "surgical": "<https://w3id.org/chordae/term/surgical_view> .",
    "imaging": "<https://w3id.org/chordae/term/imaging_view> .",
}


def emit_abdominal_organs(add: Add, iri: str, node: Node, top: str) -> None:
    """Liver, stomach, spleen, gut."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AbdominalOrgans> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("liver_side")) is not None:
        add(this + "<https://w3id.org/chordae/model/liver_side> " + (OrganSideEnum.get(value) or text(value)))
    if (value := get("stomach_side")) is not None:
        add(this + "<https://w3id.org/chordae/model/stomach_side> " + (OrganSideEnum.get(value) or text(value)))
    if (value := get("spleen")) is not None:
        add(this + "<https://w3id.org/chordae/model/spleen> " + (SpleenEnum.get(value) or text(value)))
    if (value := get("gut_rotation")) is not None:
        add(this + "<https://w3id.org/chordae/model/gut_rotation> " + (GutRotationEnum.get(value) or text(value)))
    if (value := get("abdominal_arrangement")) is not None:
        add(this + "<https://w3id.org/chordae/model/abdominal_arrangement> " + (OrganArrangementEnum.get(value) or text(value)))
    if (value := get("caval_aortic_relation")) is not None:
        add(this + "<https://w3id.org/chordae/model/caval_aortic_relation> " + (CavalAorticRelationEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<https://w3id.org/chordae/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_aortic_arch(add: Add, iri: str, node: Node, top: str) -> None:
    """The arch of the aorta and its branches."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AorticArch> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("bronchus_crossed")) is not None:
        add(this + "<https://w3id.org/chordae/model/bronchus_crossed> " + (BronchusCrossedEnum.get(value) or text(value)))
    if (value := get("stated_arch_side")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_arch_side> " + (ArchSideEnum.get(value) or text(value)))
    if (value := get("descending_aorta_side")) is not None:
        add(this + "<https://w3id.org/chordae/model/descending_aorta_side> " + (SideEnum.get(value) or text(value)))
    if values := many(get("arch_branches")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/arch_branches> " + (ArchBranchEnum.get(value) or text(value)))
        order = f"<{iri}/arch_branches> "
        add(order + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <http://www.w3.org/1999/02/22-rdf-syntax-ns#Seq> .")
        add(order + "<https://w3id.org/chordae/model/in_order_of> <" + iri + "> .")
        add(order + "<https://w3id.org/chordae/model/feature> " + text("arch_branches"))
        for number, value in enumerate(values, 1):
            add(order + f"<http://www.w3.org/1999/02/22-rdf-syntax-ns#_{number}> " + (ArchBranchEnum.get(value) or text(value)))
    if (value := get("arch_branch_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/arch_branch_count> " + integer(value))
    if (value := get("aberrant_subclavian")) is not None:
        add(this + "<https://w3id.org/chordae/model/aberrant_subclavian> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("interruption")) is not None:
        add(this + "<https://w3id.org/chordae/model/interruption> " + (InterruptionSiteEnum.get(value) or text(value)))
    if (value := get("stated_interruption_type")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_interruption_type> " + (InterruptionTypeEnum.get(value) or text(value)))
    if (value := get("coarctation")) is not None:
        add(this + "<https://w3id.org/chordae/model/coarctation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("arch_hypoplasia")) is not None:
        add(this + "<https://w3id.org/chordae/model/arch_hypoplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("vascular_ring")) is not None:
        add(this + "<https://w3id.org/chordae/model/vascular_ring> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cervical_arch")) is not None:
        add(this + "<https://w3id.org/chordae/model/cervical_arch> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_duct(add: Add, iri: str, node: Node, top: str) -> None:
    """The duct between pulmonary artery and aorta, or its ligament."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ArterialDuct> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("duct_patency")) is not None:
        add(this + "<https://w3id.org/chordae/model/duct_patency> " + (DuctPatencyEnum.get(value) or text(value)))
    if (value := get("duct_side")) is not None:
        add(this + "<https://w3id.org/chordae/model/duct_side> " + (DuctSideEnum.get(value) or text(value)))
    if (value := get("retro_oesophageal")) is not None:
        add(this + "<https://w3id.org/chordae/model/retro_oesophageal> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_trunk(add: Add, iri: str, node: Node, top: str) -> None:
    """A trunk that leaves the heart; identity is derived from its branches."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ArterialTrunk> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("stated_trunk_identity")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_trunk_identity> " + (TrunkIdentityEnum.get(value) or text(value)))
    if inners := many(get("arises_from")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/arises_from/{number}"
            add(this + "<https://w3id.org/chordae/model/arises_from> <" + where + "> .")
            emit_commitment(add, where, inner, top)
    if (value := get("overriding")) is not None:
        add(this + "<https://w3id.org/chordae/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        add(this + "<https://w3id.org/chordae/model/override_per_cent> " + decimal(value))
    if (value := get("gives_coronary_arteries")) is not None:
        add(this + "<https://w3id.org/chordae/model/gives_coronary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("gives_arch_branches")) is not None:
        add(this + "<https://w3id.org/chordae/model/gives_arch_branches> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("gives_pulmonary_arteries")) is not None:
        add(this + "<https://w3id.org/chordae/model/gives_pulmonary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("trunk_calibre")) is not None:
        add(this + "<https://w3id.org/chordae/model/trunk_calibre> " + (TrunkCalibreEnum.get(value) or text(value)))
    if (value := get("cord_to_ventricle")) is not None:
        add(this + "<https://w3id.org/chordae/model/cord_to_ventricle> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cut_level")) is not None:
        add(this + "<https://w3id.org/chordae/model/cut_level> " + (CutLevelEnum.get(value) or text(value)))
    if (value := get("dominance")) is not None:
        add(this + "<https://w3id.org/chordae/model/dominance> " + (TrunkDominanceEnum.get(value) or text(value)))
    if (value := get("pulmonary_origin_pattern")) is not None:
        add(this + "<https://w3id.org/chordae/model/pulmonary_origin_pattern> " + (PulmonaryOriginEnum.get(value) or text(value)))
    if (value := get("intrapericardial_pulmonary_arteries")) is not None:
        add(this + "<https://w3id.org/chordae/model/intrapericardial_pulmonary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("collateral_arteries")) is not None:
        add(this + "<https://w3id.org/chordae/model/collateral_arteries> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_valve(add: Add, iri: str, node: Node, top: str) -> None:
    """A valve at the root of an arterial trunk."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ArterialValve> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("stated_arterial_valve")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_arterial_valve> " + (ArterialTargetEnum.get(value) or text(value)))
    if (value := get("valve_patency")) is not None:
        add(this + "<https://w3id.org/chordae/model/valve_patency> " + (ValvePatencyEnum.get(value) or text(value)))
    if (value := get("leaflet_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/leaflet_count> " + integer(value))
    if (value := get("sinus_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/sinus_count> " + integer(value))
    if (value := get("commissure_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/commissure_count> " + integer(value))
    if (value := get("raphe_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/raphe_count> " + integer(value))
    if (value := get("fusion_pattern")) is not None:
        add(this + "<https://w3id.org/chordae/model/fusion_pattern> " + (FusionPatternEnum.get(value) or text(value)))
    if (value := get("two_leaflet_type")) is not None:
        add(this + "<https://w3id.org/chordae/model/two_leaflet_type> " + (TwoLeafletTypeEnum.get(value) or text(value)))
    if (value := get("dysplasia")) is not None:
        add(this + "<https://w3id.org/chordae/model/dysplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("stenosis")) is not None:
        add(this + "<https://w3id.org/chordae/model/stenosis> " + (PresenceEnum.get(value) or text(value)))


def emit_atrial_septum(add: Add, iri: str, node: Node, top: str) -> None:
    """The wall between the atria."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AtrialSeptum> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("septal_integrity")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_integrity> " + (SeptalIntegrityEnum.get(value) or text(value)))


def emit_atrioventricular_junction(add: Add, iri: str, node: Node, top: str) -> None:
    """The junction of one atrium with the ventricular mass; state absent means that the atrium has no junction."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AtrioventricularJunction> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("atrium")) is not None:
        add(this + "<https://w3id.org/chordae/model/atrium> <" + top + "/part/" + name(value) + "> .")
    if inners := many(get("opens_into")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/opens_into/{number}"
            add(this + "<https://w3id.org/chordae/model/opens_into> <" + where + "> .")
            emit_commitment(add, where, inner, top)
    if (value := get("floor_tissue")) is not None:
        add(this + "<https://w3id.org/chordae/model/floor_tissue> " + (FloorTissueEnum.get(value) or text(value)))
    if (value := get("overriding")) is not None:
        add(this + "<https://w3id.org/chordae/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        add(this + "<https://w3id.org/chordae/model/override_per_cent> " + decimal(value))


def emit_atrioventricular_junctions(add: Add, iri: str, node: Node, top: str) -> None:
    """The two junctions seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AtrioventricularJunctions> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("junction_pattern")) is not None:
        add(this + "<https://w3id.org/chordae/model/junction_pattern> " + (JunctionPatternEnum.get(value) or text(value)))
    if (value := get("valvar_orifices")) is not None:
        add(this + "<https://w3id.org/chordae/model/valvar_orifices> " + (ValvarOrificesEnum.get(value) or text(value)))
    if (value := get("atrioventricular_septum")) is not None:
        add(this + "<https://w3id.org/chordae/model/atrioventricular_septum> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("hinge_offset_direction")) is not None:
        add(this + "<https://w3id.org/chordae/model/hinge_offset_direction> " + (HingeOffsetEnum.get(value) or text(value)))
    if (value := get("hinge_offset_mm")) is not None:
        add(this + "<https://w3id.org/chordae/model/hinge_offset_mm> " + decimal(value))
    if (value := get("outlet_inlet_ratio")) is not None:
        add(this + "<https://w3id.org/chordae/model/outlet_inlet_ratio> " + (OutletInletEnum.get(value) or text(value)))
    if (value := get("ventricular_balance")) is not None:
        add(this + "<https://w3id.org/chordae/model/ventricular_balance> " + (VentricularBalanceEnum.get(value) or text(value)))
    if (value := get("per_cent_to_left_ventricle")) is not None:
        add(this + "<https://w3id.org/chordae/model/per_cent_to_left_ventricle> " + decimal(value))


def emit_atrioventricular_valve(add: Add, iri: str, node: Node, top: str) -> None:
    """A valve that guards an atrioventricular junction, named by side; identity is derived."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/AtrioventricularValve> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("junction")) is not None:
        add(this + "<https://w3id.org/chordae/model/junction> <" + top + "/part/" + name(value) + "> .")
    if (value := get("stated_valve_type")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_valve_type> " + (ValveTypeEnum.get(value) or text(value)))
    if (value := get("valve_patency")) is not None:
        add(this + "<https://w3id.org/chordae/model/valve_patency> " + (ValvePatencyEnum.get(value) or text(value)))
    if (value := get("leaflet_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/leaflet_count> " + integer(value))
    if (value := get("septal_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("anterosuperior_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/anterosuperior_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("inferior_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/inferior_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("aortic_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/aortic_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("mural_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/mural_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("superior_bridging_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/superior_bridging_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("inferior_bridging_leaflet")) is not None:
        add(this + "<https://w3id.org/chordae/model/inferior_bridging_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("septal_chordal_attachment")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_chordal_attachment> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("papillary_muscles")) is not None:
        add(this + "<https://w3id.org/chordae/model/papillary_muscles> " + (PapillaryPatternEnum.get(value) or text(value)))
    if (value := get("medial_papillary_muscle")) is not None:
        add(this + "<https://w3id.org/chordae/model/medial_papillary_muscle> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cleft")) is not None:
        add(this + "<https://w3id.org/chordae/model/cleft> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("zone_of_apposition")) is not None:
        add(this + "<https://w3id.org/chordae/model/zone_of_apposition> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("straddling")) is not None:
        add(this + "<https://w3id.org/chordae/model/straddling> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("straddling_degree")) is not None:
        add(this + "<https://w3id.org/chordae/model/straddling_degree> " + (StraddlingDegreeEnum.get(value) or text(value)))
    if (value := get("straddling_attachment")) is not None:
        add(this + "<https://w3id.org/chordae/model/straddling_attachment> " + text(value))
    if (value := get("overriding")) is not None:
        add(this + "<https://w3id.org/chordae/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        add(this + "<https://w3id.org/chordae/model/override_per_cent> " + decimal(value))
    if (value := get("free_standing_leaflet_bridging")) is not None:
        add(this + "<https://w3id.org/chordae/model/free_standing_leaflet_bridging> " + (RastelliEnum.get(value) or text(value)))
    if (value := get("dual_orifice")) is not None:
        add(this + "<https://w3id.org/chordae/model/dual_orifice> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("supravalvar_ring")) is not None:
        add(this + "<https://w3id.org/chordae/model/supravalvar_ring> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("dysplasia")) is not None:
        add(this + "<https://w3id.org/chordae/model/dysplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("stenosis")) is not None:
        add(this + "<https://w3id.org/chordae/model/stenosis> " + (PresenceEnum.get(value) or text(value)))


def emit_atrium(add: Add, iri: str, node: Node, top: str) -> None:
    """An atrial chamber with its appendage, named by side; identity is derived from its features."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Atrium> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("appendage_shape")) is not None:
        add(this + "<https://w3id.org/chordae/model/appendage_shape> " + (AppendageShapeEnum.get(value) or text(value)))
    if (value := get("appendage_junction")) is not None:
        add(this + "<https://w3id.org/chordae/model/appendage_junction> " + (AppendageJunctionEnum.get(value) or text(value)))
    if (value := get("terminal_crest")) is not None:
        add(this + "<https://w3id.org/chordae/model/terminal_crest> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("pectinate_extent")) is not None:
        add(this + "<https://w3id.org/chordae/model/pectinate_extent> " + (PectinateExtentEnum.get(value) or text(value)))
    if (value := get("appendage_morphology")) is not None:
        add(this + "<https://w3id.org/chordae/model/appendage_morphology> " + (AppendageMorphologyEnum.get(value) or text(value)))
    if (value := get("appendage_position")) is not None:
        add(this + "<https://w3id.org/chordae/model/appendage_position> " + (AppendagePositionEnum.get(value) or text(value)))
    if (value := get("oval_fossa_rim")) is not None:
        add(this + "<https://w3id.org/chordae/model/oval_fossa_rim> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("oval_fossa_flap")) is not None:
        add(this + "<https://w3id.org/chordae/model/oval_fossa_flap> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("divided_atrium")) is not None:
        add(this + "<https://w3id.org/chordae/model/divided_atrium> " + (DividedAtriumEnum.get(value) or text(value)))
    if (value := get("stated_atrial_identity")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_atrial_identity> " + (AtrialIdentityEnum.get(value) or text(value)))


def emit_collection(add: Add, iri: str, node: Node, top: str) -> None:
    """A set of specimens kept by one institution."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Collection> .")
    if (value := get("name")) is not None:
        add(this + "<https://w3id.org/chordae/model/name> " + text(value))
    if (value := get("base_iri")) is not None:
        add(this + "<https://w3id.org/chordae/model/base_iri> " + uri(value))
    if (value := get("custodian")) is not None:
        add(this + "<https://w3id.org/chordae/model/custodian> " + text(value))
    if (value := get("licence")) is not None:
        add(this + "<https://w3id.org/chordae/model/licence> " + text(value))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_commitment(add: Add, iri: str, node: Node, top: str) -> None:
    """Share of a junction or arterial root that belongs to one ventricle."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Commitment> .")
    if (value := get("ventricle")) is not None:
        add(this + "<https://w3id.org/chordae/model/ventricle> <" + top + "/part/" + name(value) + "> .")
    if (value := get("per_cent")) is not None:
        add(this + "<https://w3id.org/chordae/model/per_cent> " + decimal(value))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_conclusion_basis(add: Add, iri: str, node: Node, top: str) -> None:
    """What one stated conclusion rests on."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ConclusionBasis> .")
    if (value := get("conclusion")) is not None:
        add(this + "<https://w3id.org/chordae/model/conclusion> " + (ConclusionNameEnum.get(value) or text(value)))
    if values := many(get("rests_on")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/rests_on> " + text(value))
    if (value := get("inference_note")) is not None:
        add(this + "<https://w3id.org/chordae/model/inference_note> " + text(value))


def emit_conduction_finding(add: Add, iri: str, node: Node, top: str) -> None:
    """A part of the conduction system that was found, not expected."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ConductionFinding> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("conduction_structure")) is not None:
        add(this + "<https://w3id.org/chordae/model/conduction_structure> " + (ConductionStructureEnum.get(value) or text(value)))
    if (value := get("conduction_place")) is not None:
        add(this + "<https://w3id.org/chordae/model/conduction_place> " + text(value))
    if (value := get("histology_reference")) is not None:
        add(this + "<https://w3id.org/chordae/model/histology_reference> " + text(value))


def emit_coronary_arteries(add: Add, iri: str, node: Node, top: str) -> None:
    """The arteries of the heart."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/CoronaryArteries> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("leiden_code")) is not None:
        add(this + "<https://w3id.org/chordae/model/leiden_code> " + text(value))
    if (value := get("viewing_convention")) is not None:
        add(this + "<https://w3id.org/chordae/model/viewing_convention> " + (ViewingConventionEnum.get(value) or text(value)))
    if (value := get("right_coronary_origin")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_coronary_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("left_coronary_origin")) is not None:
        add(this + "<https://w3id.org/chordae/model/left_coronary_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("circumflex_origin")) is not None:
        add(this + "<https://w3id.org/chordae/model/circumflex_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("single_coronary_artery")) is not None:
        add(this + "<https://w3id.org/chordae/model/single_coronary_artery> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("duplicate_coronary_origin")) is not None:
        add(this + "<https://w3id.org/chordae/model/duplicate_coronary_origin> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("orifice_level")) is not None:
        add(this + "<https://w3id.org/chordae/model/orifice_level> " + (OrificeLevelEnum.get(value) or text(value)))
    if (value := get("paracommissural_orifice")) is not None:
        add(this + "<https://w3id.org/chordae/model/paracommissural_orifice> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("intramural_course")) is not None:
        add(this + "<https://w3id.org/chordae/model/intramural_course> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("coronary_fistula")) is not None:
        add(this + "<https://w3id.org/chordae/model/coronary_fistula> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("coronary_dominance")) is not None:
        add(this + "<https://w3id.org/chordae/model/coronary_dominance> " + (CoronaryDominanceEnum.get(value) or text(value)))


def emit_derived_conclusions(add: Add, iri: str, node: Node, top: str) -> None:
    """What the toolkit derives from the recorded features, each with its ground."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/DerivedConclusions> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Conclusions> .")
    if (value := get("topology")) is not None:
        add(this + "<https://w3id.org/chordae/model/topology> " + (TopologyEnum.get(value) or text(value)))
    if (value := get("av_connection")) is not None:
        add(this + "<https://w3id.org/chordae/model/av_connection> " + (AtrioventricularConnectionEnum.get(value) or text(value)))
    if (value := get("va_connection")) is not None:
        add(this + "<https://w3id.org/chordae/model/va_connection> " + (VentriculoarterialConnectionEnum.get(value) or text(value)))
    if (value := get("notation")) is not None:
        add(this + "<https://w3id.org/chordae/model/notation> " + text(value))
    if (value := get("arrangement")) is not None:
        add(this + "<https://w3id.org/chordae/model/atrial_arrangement> " + (AtrialArrangementEnum.get(value) or text(value)))
    if (value := get("statement_european")) is not None:
        add(this + "<https://w3id.org/chordae/model/statement_european> " + text(value))
    if (value := get("statement_north_american")) is not None:
        add(this + "<https://w3id.org/chordae/model/statement_north_american> " + text(value))
    if inners := many(get("identities")):
        for last, inner in keyed(inners, "part"):
            where = f"{iri}/identity/{last}"
            add(this + "<https://w3id.org/chordae/model/identities> <" + where + "> .")
            emit_derived_identity(add, where, inner, top)
    if inners := many(get("derived_diagnoses")):
        for last, inner in keyed(inners, "term"):
            where = f"{iri}/diagnosis/{last}"
            add(this + "<https://w3id.org/chordae/model/derived_diagnosis> <" + where + "> .")
            emit_derived_diagnosis(add, where, inner, top)
    if inners := many(get("undetermined")):
        for last, inner in keyed(inners, "what"):
            where = f"{iri}/undetermined/{last}"
            add(this + "<https://w3id.org/chordae/model/undetermined> <" + where + "> .")
            emit_undetermined(add, where, inner, top)


def emit_derived_diagnosis(add: Add, iri: str, node: Node, top: str) -> None:
    """A malformation that follows from derived facts."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/DerivedDiagnosis> .")
    if (value := get("term")) is not None:
        add(this + "<https://w3id.org/chordae/model/term> " + term(value))
    if values := many(get("premises")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/premises> " + text(value))


def emit_derived_identity(add: Add, iri: str, node: Node, top: str) -> None:
    """Identity of one part as derived from its features."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/DerivedIdentity> .")
    if (value := get("part")) is not None:
        add(this + "<https://w3id.org/chordae/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("identity")) is not None:
        add(this + "<https://w3id.org/chordae/model/identity> " + term(value))
    if values := many(get("basis")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/basis> " + text(value))
    if (value := get("confidence")) is not None:
        add(this + "<https://w3id.org/chordae/model/confidence> " + (ConfidenceEnum.get(value) or text(value)))


def emit_description(add: Add, iri: str, node: Node, top: str) -> None:
    """Who described the specimen, when, how and in whose words."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Description> .")
    if (value := get("observer")) is not None:
        add(this + "<https://w3id.org/chordae/model/observer> " + text(value))
    if (value := get("described_on")) is not None:
        add(this + "<https://w3id.org/chordae/model/described_on> " + date(value))
    if (value := get("school")) is not None:
        add(this + "<https://w3id.org/chordae/model/school> " + (SchoolEnum.get(value) or text(value)))
    if values := many(get("examination")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/examination> " + (ExaminationEnum.get(value) or text(value)))
    if (value := get("reader")) is not None:
        add(this + "<https://w3id.org/chordae/model/reader> " + text(value))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_evidence(add: Add, iri: str, node: Node, top: str) -> None:
    """A photograph, sequence, scan, drawing or report that shows what is stated."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Evidence> .")
    if (value := get("evidence_kind")) is not None:
        add(this + "<https://w3id.org/chordae/model/evidence_kind> " + (EvidenceKindEnum.get(value) or text(value)))
    if (value := get("source_file")) is not None:
        add(this + "<https://w3id.org/chordae/model/source_file> " + text(value))
    if (value := get("selector")) is not None:
        add(this + "<https://w3id.org/chordae/model/selector> " + text(value))
    if inners := many(get("shows")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/shows/{number}"
            add(this + "<https://w3id.org/chordae/model/shows> <" + where + "> .")
            emit_evidence_target(add, where, inner, top)
    if (value := get("view")) is not None:
        add(this + "<https://w3id.org/chordae/model/view> " + text(value))
    if (value := get("made_by")) is not None:
        add(this + "<https://w3id.org/chordae/model/made_by> " + text(value))
    if (value := get("made_on")) is not None:
        add(this + "<https://w3id.org/chordae/model/made_on> " + date(value))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_evidence_target(add: Add, iri: str, node: Node, top: str) -> None:
    """A part, and if wanted one of its features, that evidence shows."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/EvidenceTarget> .")
    if (value := get("part")) is not None:
        add(this + "<https://w3id.org/chordae/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("feature")) is not None:
        add(this + "<https://w3id.org/chordae/model/feature> " + text(value))


def emit_fact_origin(add: Add, iri: str, node: Node, top: str) -> None:
    """Where one fact of a reconciled description comes from: one of the two descriptions, both, or a decision between them."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/FactOrigin> .")
    if (value := get("what")) is not None:
        add(this + "<https://w3id.org/chordae/model/what> " + text(value))
    if values := many(get("derived_from")):
        for value in values:
            add(this + "<http://www.w3.org/ns/prov#wasDerivedFrom> " + uri(value))
    if (value := get("settled_by")) is not None:
        add(this + "<https://w3id.org/chordae/model/settled_by> " + text(value))
    if (value := get("attributed_to")) is not None:
        add(this + "<http://www.w3.org/ns/prov#wasAttributedTo> " + uri(value))
    if (value := get("why")) is not None:
        add(this + "<https://w3id.org/chordae/model/why> " + text(value))


def emit_feature_observation(add: Add, iri: str, node: Node, top: str) -> None:
    """What is added to one feature of a part: its state where the feature is a number or words, reason, certainty, evidence."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/FeatureObservation> .")
    if (value := get("feature")) is not None:
        add(this + "<https://w3id.org/chordae/model/feature> " + text(value))
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("certainty")) is not None:
        add(this + "<https://w3id.org/chordae/model/certainty> " + (CertaintyEnum.get(value) or text(value)))
    if values := many(get("evidence_refs")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/evidence_refs> <" + top + "/evidence/" + name(value) + "> .")
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if (value := get("quote")) is not None:
        add(this + "<https://w3id.org/chordae/model/quote> " + text(value))


def emit_great_arteries(add: Add, iri: str, node: Node, top: str) -> None:
    """The trunks seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/GreatArteries> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("aorta_relation")) is not None:
        add(this + "<https://w3id.org/chordae/model/aorta_relation> " + (AortaRelationEnum.get(value) or text(value)))
    if (value := get("trunk_course")) is not None:
        add(this + "<https://w3id.org/chordae/model/trunk_course> " + (TrunkCourseEnum.get(value) or text(value)))
    if (value := get("aortopulmonary_window")) is not None:
        add(this + "<https://w3id.org/chordae/model/aortopulmonary_window> " + (PresenceEnum.get(value) or text(value)))


def emit_heart_position(add: Add, iri: str, node: Node, top: str) -> None:
    """Place of the heart in the chest and direction of its apex: two fields, never derived from each other."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/HeartPosition> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("cardiac_position")) is not None:
        add(this + "<https://w3id.org/chordae/model/cardiac_position> " + (CardiacPositionEnum.get(value) or text(value)))
    if (value := get("apex")) is not None:
        add(this + "<https://w3id.org/chordae/model/apex> " + (ApexEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<https://w3id.org/chordae/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_interatrial_communication(add: Add, iri: str, node: Node, top: str) -> None:
    """A hole between the atria."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/InteratrialCommunication> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("interatrial_location")) is not None:
        add(this + "<https://w3id.org/chordae/model/interatrial_location> " + (InteratrialLocationEnum.get(value) or text(value)))
    if (value := get("patency")) is not None:
        add(this + "<https://w3id.org/chordae/model/patency> " + (CommunicationPatencyEnum.get(value) or text(value)))


def emit_interventricular_communication(add: Add, iri: str, node: Node, top: str) -> None:
    """A hole between the ventricles, described by borders and by geography."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/InterventricularCommunication> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("stated_border_category")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_border_category> " + (BorderCategoryEnum.get(value) or text(value)))
    if (value := get("geography")) is not None:
        add(this + "<https://w3id.org/chordae/model/geography> " + (DefectGeographyEnum.get(value) or text(value)))
    if (value := get("roof_rim")) is not None:
        add(this + "<https://w3id.org/chordae/model/roof_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("posteroinferior_rim")) is not None:
        add(this + "<https://w3id.org/chordae/model/posteroinferior_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("anterior_rim")) is not None:
        add(this + "<https://w3id.org/chordae/model/anterior_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("caudal_rim")) is not None:
        add(this + "<https://w3id.org/chordae/model/caudal_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("tricuspid_mitral_continuity")) is not None:
        add(this + "<https://w3id.org/chordae/model/tricuspid_mitral_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("aortic_tricuspid_continuity")) is not None:
        add(this + "<https://w3id.org/chordae/model/aortic_tricuspid_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("arterial_valvar_continuity")) is not None:
        add(this + "<https://w3id.org/chordae/model/arterial_valvar_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("between_limbs")) is not None:
        add(this + "<https://w3id.org/chordae/model/between_limbs> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("commitment")) is not None:
        add(this + "<https://w3id.org/chordae/model/commitment> " + (CommitmentEnum.get(value) or text(value)))
    if (value := get("malalignment")) is not None:
        add(this + "<https://w3id.org/chordae/model/malalignment> " + (MalalignmentEnum.get(value) or text(value)))
    if (value := get("restrictive")) is not None:
        add(this + "<https://w3id.org/chordae/model/restrictive> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("plane_of_closure")) is not None:
        add(this + "<https://w3id.org/chordae/model/plane_of_closure> " + (PlaneOfClosureEnum.get(value) or text(value)))
    if (value := get("opens_to_atrium")) is not None:
        add(this + "<https://w3id.org/chordae/model/opens_to_atrium> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("patency")) is not None:
        add(this + "<https://w3id.org/chordae/model/patency> " + (CommunicationPatencyEnum.get(value) or text(value)))


def emit_material_condition(add: Add, iri: str, node: Node, top: str) -> None:
    """State of one structure of the specimen as material."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/MaterialCondition> .")
    if (value := get("structure")) is not None:
        add(this + "<https://w3id.org/chordae/model/structure> " + text(value))
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_measurement(add: Add, iri: str, node: Node, top: str) -> None:
    """A measured number."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Measurement> .")
    if (value := get("part")) is not None:
        add(this + "<https://w3id.org/chordae/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("quantity")) is not None:
        add(this + "<https://w3id.org/chordae/model/quantity> " + (QuantityEnum.get(value) or text(value)))
    if (value := get("value")) is not None:
        add(this + "<https://w3id.org/chordae/model/value> " + decimal(value))
    if (value := get("unit")) is not None:
        add(this + "<https://w3id.org/chordae/model/unit> " + text(value))
    if (value := get("method")) is not None:
        add(this + "<https://w3id.org/chordae/model/method> " + text(value))
    if (value := get("site")) is not None:
        add(this + "<https://w3id.org/chordae/model/site> " + text(value))
    if (value := get("material_state")) is not None:
        add(this + "<https://w3id.org/chordae/model/material_state> " + (MaterialStateEnum.get(value) or text(value)))
    if (value := get("reference_set")) is not None:
        add(this + "<https://w3id.org/chordae/model/reference_set> " + text(value))
    if (value := get("body_measure")) is not None:
        add(this + "<https://w3id.org/chordae/model/body_measure> " + text(value))
    if (value := get("modality")) is not None:
        add(this + "<https://w3id.org/chordae/model/modality> " + text(value))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_open_question(add: Add, iri: str, node: Node, top: str) -> None:
    """Something in which two descriptions differ and on which nobody has decided yet; the reconciled description is silent on it."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/OpenQuestion> .")
    if (value := get("what")) is not None:
        add(this + "<https://w3id.org/chordae/model/what> " + text(value))
    if values := many(get("answers")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/answers> " + text(value))


def emit_outflow_tract(add: Add, iri: str, node: Node, top: str) -> None:
    """The way from a ventricle to one arterial valve."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/OutflowTract> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("outflow_of")) is not None:
        add(this + "<https://w3id.org/chordae/model/outflow_of> " + (ArterialTargetEnum.get(value) or text(value)))
    if (value := get("ventricle")) is not None:
        add(this + "<https://w3id.org/chordae/model/ventricle> <" + top + "/part/" + name(value) + "> .")
    if (value := get("infundibulum_below")) is not None:
        add(this + "<https://w3id.org/chordae/model/infundibulum_below> " + (InfundibularMuscleEnum.get(value) or text(value)))
    if (value := get("arterial_atrioventricular_continuity")) is not None:
        add(this + "<https://w3id.org/chordae/model/arterial_atrioventricular_continuity> " + (FibrousContinuityEnum.get(value) or text(value)))
    if values := many(get("obstruction")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/obstruction> " + (ObstructionEnum.get(value) or text(value)))


def emit_outflow_tracts(add: Add, iri: str, node: Node, top: str) -> None:
    """The outflow tracts seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/OutflowTracts> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("infundibulum")) is not None:
        add(this + "<https://w3id.org/chordae/model/infundibulum> " + (InfundibulumPatternEnum.get(value) or text(value)))
    if (value := get("outlet_septum")) is not None:
        add(this + "<https://w3id.org/chordae/model/outlet_septum> " + (OutletSeptumEnum.get(value) or text(value)))
    if (value := get("outlet_septum_deviation")) is not None:
        add(this + "<https://w3id.org/chordae/model/outlet_septum_deviation> " + (OutletSeptumDeviationEnum.get(value) or text(value)))
    if (value := get("septoparietal_hypertrophy")) is not None:
        add(this + "<https://w3id.org/chordae/model/septoparietal_hypertrophy> " + (PresenceEnum.get(value) or text(value)))


def emit_pulmonary_veins(add: Add, iri: str, node: Node, top: str) -> None:
    """Veins that bring blood from the lungs."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/PulmonaryVeins> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("pulmonary_vein_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/pulmonary_vein_count> " + integer(value))
    if (value := get("pulmonary_venous_connection")) is not None:
        add(this + "<https://w3id.org/chordae/model/pulmonary_venous_connection> " + (PulmonaryVenousConnectionEnum.get(value) or text(value)))
    if (value := get("anomalous_site")) is not None:
        add(this + "<https://w3id.org/chordae/model/anomalous_site> " + (AnomalousVenousSiteEnum.get(value) or text(value)))
    if (value := get("pulmonary_veins_to_left_atrium")) is not None:
        add(this + "<https://w3id.org/chordae/model/pulmonary_veins_to_left_atrium> " + integer(value))
    if (value := get("venous_obstruction")) is not None:
        add(this + "<https://w3id.org/chordae/model/venous_obstruction> " + (PresenceEnum.get(value) or text(value)))


def emit_reconciliation(add: Add, iri: str, node: Node, top: str) -> None:
    """How a description was made of two others of the same heart."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Reconciliation> .")
    if values := many(get("derived_from")):
        for value in values:
            add(this + "<http://www.w3.org/ns/prov#wasDerivedFrom> " + uri(value))
    if (value := get("settled_by")) is not None:
        add(this + "<https://w3id.org/chordae/model/settled_by> " + text(value))
    if (value := get("attributed_to")) is not None:
        add(this + "<http://www.w3.org/ns/prov#wasAttributedTo> " + uri(value))
    if (value := get("settled_on")) is not None:
        add(this + "<https://w3id.org/chordae/model/settled_on> " + date(value))
    if inners := many(get("origins")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/origin/{number}"
            add(this + "<https://w3id.org/chordae/model/origins> <" + where + "> .")
            emit_fact_origin(add, where, inner, top)
    if inners := many(get("open_questions")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/question/{number}"
            add(this + "<https://w3id.org/chordae/model/open_questions> <" + where + "> .")
            emit_open_question(add, where, inner, top)


def emit_record(add: Add, iri: str, node: Node, top: str) -> None:
    """One description of one specimen by one observer."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Record> .")
    if (value := get("vocabulary_version")) is not None:
        add(this + "<https://w3id.org/chordae/model/vocabulary_version> " + text(value))
    if (value := get("collection")) is not None:
        add(this + "<https://w3id.org/chordae/model/collection> " + text(value))
    if (inner := get("specimen")) is not None:
        add(this + "<https://w3id.org/chordae/model/specimen> <" + iri + "/specimen> .")
        emit_specimen(add, iri + "/specimen", inner, top)
    if (inner := get("description")) is not None:
        add(this + "<https://w3id.org/chordae/model/description> <" + iri + "/description> .")
        emit_description(add, iri + "/description", inner, top)
    if inners := many(get("parts")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/part/{last}"
            add(this + "<https://w3id.org/chordae/model/parts> <" + where + "> .")
            PART[inner["type"]](add, where, inner, top)
    if inners := many(get("measurements")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/measurement/{last}"
            add(this + "<https://w3id.org/chordae/model/measurements> <" + where + "> .")
            emit_measurement(add, where, inner, top)
    if inners := many(get("evidence")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/evidence/{last}"
            add(this + "<https://w3id.org/chordae/model/evidence> <" + where + "> .")
            emit_evidence(add, where, inner, top)
    if (inner := get("stated")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated> <" + iri + "/stated> .")
        emit_stated_conclusions(add, iri + "/stated", inner, top)
    if (inner := get("derived")) is not None:
        add(this + "<https://w3id.org/chordae/model/derived> <" + iri + "/derived> .")
        emit_derived_conclusions(add, iri + "/derived", inner, top)
    if (inner := get("reconciliation")) is not None:
        add(this + "<https://w3id.org/chordae/model/reconciliation> <" + iri + "/reconciliation> .")
        emit_reconciliation(add, iri + "/reconciliation", inner, top)
    if inners := many(get("waivers")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/waiver/{number}"
            add(this + "<https://w3id.org/chordae/model/waivers> <" + where + "> .")
            emit_waiver(add, where, inner, top)
    if inners := many(get("remarks")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/remark/{number}"
            add(this + "<https://w3id.org/chordae/model/remarks> <" + where + "> .")
            emit_remark(add, where, inner, top)


def emit_remark(add: Add, iri: str, node: Node, top: str) -> None:
    """Free words of the catalogue that were kept as text and not interpreted."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Remark> .")
    if (value := get("text")) is not None:
        add(this + "<https://w3id.org/chordae/model/text> " + text(value))
    if (value := get("place")) is not None:
        add(this + "<https://w3id.org/chordae/model/place> " + text(value))


def emit_specimen(add: Add, iri: str, node: Node, top: str) -> None:
    """A heart, with or without neighbouring organs, kept for teaching or research."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Specimen> .")
    if (value := get("accession")) is not None:
        add(this + "<https://w3id.org/chordae/model/accession> " + text(value))
    if values := many(get("other_numbers")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/other_numbers> " + text(value))
    if (value := get("loan_from")) is not None:
        add(this + "<https://w3id.org/chordae/model/loan_from> " + text(value))
    if (value := get("material")) is not None:
        add(this + "<https://w3id.org/chordae/model/material> " + (MaterialEnum.get(value) or text(value)))
    if values := many(get("preparation")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/preparation> " + (PreparationEnum.get(value) or text(value)))
    if (value := get("fixation")) is not None:
        add(this + "<https://w3id.org/chordae/model/fixation> " + (MaterialStateEnum.get(value) or text(value)))
    if inners := many(get("material_states")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/material_states/{number}"
            add(this + "<https://w3id.org/chordae/model/material_states> <" + where + "> .")
            emit_material_condition(add, where, inner, top)
    if (value := get("operated")) is not None:
        add(this + "<https://w3id.org/chordae/model/operated> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("age_group")) is not None:
        add(this + "<https://w3id.org/chordae/model/age_group> " + (AgeGroupEnum.get(value) or text(value)))
    if (value := get("age_text")) is not None:
        add(this + "<https://w3id.org/chordae/model/age_text> " + text(value))
    if (value := get("sex")) is not None:
        add(this + "<https://w3id.org/chordae/model/sex> " + (SexEnum.get(value) or text(value)))
    if (value := get("acquired")) is not None:
        add(this + "<https://w3id.org/chordae/model/acquired> " + date(value))
    if (value := get("consent")) is not None:
        add(this + "<https://w3id.org/chordae/model/consent> " + (ConsentEnum.get(value) or text(value)))
    if values := many(get("consent_scope")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/consent_scope> " + (ConsentScopeEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))


def emit_stated_conclusions(add: Add, iri: str, node: Node, top: str) -> None:
    """What the observer concluded."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/StatedConclusions> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Conclusions> .")
    if (value := get("topology")) is not None:
        add(this + "<https://w3id.org/chordae/model/topology> " + (TopologyEnum.get(value) or text(value)))
    if (value := get("av_connection")) is not None:
        add(this + "<https://w3id.org/chordae/model/av_connection> " + (AtrioventricularConnectionEnum.get(value) or text(value)))
    if (value := get("va_connection")) is not None:
        add(this + "<https://w3id.org/chordae/model/va_connection> " + (VentriculoarterialConnectionEnum.get(value) or text(value)))
    if (value := get("notation")) is not None:
        add(this + "<https://w3id.org/chordae/model/notation> " + text(value))
    if (value := get("atrial_arrangement")) is not None:
        add(this + "<https://w3id.org/chordae/model/atrial_arrangement> " + (AtrialArrangementEnum.get(value) or text(value)))
    if values := many(get("diagnoses")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/diagnoses> " + term(value))
    if (value := get("statement")) is not None:
        add(this + "<https://w3id.org/chordae/model/statement> " + text(value))
    if inners := many(get("conclusion_basis")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/conclusion_basis/{number}"
            add(this + "<https://w3id.org/chordae/model/conclusion_basis> <" + where + "> .")
            emit_conclusion_basis(add, where, inner, top)
    if (value := get("inference_note")) is not None:
        add(this + "<https://w3id.org/chordae/model/inference_note> " + text(value))
    if (value := get("disharmony")) is not None:
        add(this + "<https://w3id.org/chordae/model/disharmony> " + (DisharmonyEnum.get(value) or text(value)))
    if (value := get("convention")) is not None:
        add(this + "<https://w3id.org/chordae/model/convention> " + (SchoolEnum.get(value) or text(value)))


def emit_surgical_finding(add: Add, iri: str, node: Node, top: str) -> None:
    """The trace of an operation, apart from the native anatomy."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/SurgicalFinding> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("procedure")) is not None:
        add(this + "<https://w3id.org/chordae/model/procedure> " + (ProcedureEnum.get(value) or text(value)))
    if (value := get("operated_part")) is not None:
        add(this + "<https://w3id.org/chordae/model/operated_part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("native_state_known")) is not None:
        add(this + "<https://w3id.org/chordae/model/native_state_known> " + (PresenceEnum.get(value) or text(value)))


def emit_systemic_veins(add: Add, iri: str, node: Node, top: str) -> None:
    """Veins that bring blood from the body and the heart itself."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/SystemicVeins> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("right_superior_caval_vein")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_superior_caval_vein> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("left_superior_caval_vein")) is not None:
        add(this + "<https://w3id.org/chordae/model/left_superior_caval_vein> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("left_superior_caval_vein_to")) is not None:
        add(this + "<https://w3id.org/chordae/model/left_superior_caval_vein_to> " + (CavalDrainageEnum.get(value) or text(value)))
    if (value := get("inferior_caval_vein")) is not None:
        add(this + "<https://w3id.org/chordae/model/inferior_caval_vein> " + (InferiorCavalVeinEnum.get(value) or text(value)))
    if (value := get("azygos_continuation")) is not None:
        add(this + "<https://w3id.org/chordae/model/azygos_continuation> " + (SideEnum.get(value) or text(value)))
    if (value := get("hepatic_veins_to")) is not None:
        add(this + "<https://w3id.org/chordae/model/hepatic_veins_to> " + (AtrialSideEnum.get(value) or text(value)))
    if (value := get("coronary_sinus")) is not None:
        add(this + "<https://w3id.org/chordae/model/coronary_sinus> " + (CoronarySinusEnum.get(value) or text(value)))


def emit_thoracic_organs(add: Add, iri: str, node: Node, top: str) -> None:
    """Lungs and bronchi."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/ThoracicOrgans> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("right_sided_bronchus")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_sided_bronchus> " + (BronchusEnum.get(value) or text(value)))
    if (value := get("left_sided_bronchus")) is not None:
        add(this + "<https://w3id.org/chordae/model/left_sided_bronchus> " + (BronchusEnum.get(value) or text(value)))
    if (value := get("right_sided_lung_lobes")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_sided_lung_lobes> " + integer(value))
    if (value := get("left_sided_lung_lobes")) is not None:
        add(this + "<https://w3id.org/chordae/model/left_sided_lung_lobes> " + integer(value))
    if (value := get("bronchial_arrangement")) is not None:
        add(this + "<https://w3id.org/chordae/model/bronchial_arrangement> " + (OrganArrangementEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<https://w3id.org/chordae/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_undetermined(add: Add, iri: str, node: Node, top: str) -> None:
    """Something that could not be determined."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Undetermined> .")
    if (value := get("what")) is not None:
        add(this + "<https://w3id.org/chordae/model/what> " + text(value))
    if (value := get("why")) is not None:
        add(this + "<https://w3id.org/chordae/model/why> " + text(value))


def emit_ventricle(add: Add, iri: str, node: Node, top: str) -> None:
    """A ventricular chamber; identity is derived from its apical part."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Ventricle> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if values := many(get("ventricle_position")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/ventricle_position> " + (VentriclePositionEnum.get(value) or text(value)))
    if (value := get("stated_ventricular_identity")) is not None:
        add(this + "<https://w3id.org/chordae/model/stated_ventricular_identity> " + (VentricularIdentityEnum.get(value) or text(value)))
    if (value := get("apical_trabeculation")) is not None:
        add(this + "<https://w3id.org/chordae/model/apical_trabeculation> " + (ApicalTrabeculationEnum.get(value) or text(value)))
    if (value := get("septomarginal_trabeculation")) is not None:
        add(this + "<https://w3id.org/chordae/model/septomarginal_trabeculation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("moderator_band")) is not None:
        add(this + "<https://w3id.org/chordae/model/moderator_band> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("septal_surface")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_surface> " + (SeptalSurfaceEnum.get(value) or text(value)))
    if (value := get("septal_valve_attachments")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_valve_attachments> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("ventricle_size")) is not None:
        add(this + "<https://w3id.org/chordae/model/ventricle_size> " + (ChamberSizeEnum.get(value) or text(value)))
    if (value := get("completeness")) is not None:
        add(this + "<https://w3id.org/chordae/model/completeness> " + (CompletenessEnum.get(value) or text(value)))
    if (value := get("inlet_component")) is not None:
        add(this + "<https://w3id.org/chordae/model/inlet_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("apical_component")) is not None:
        add(this + "<https://w3id.org/chordae/model/apical_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("outlet_component")) is not None:
        add(this + "<https://w3id.org/chordae/model/outlet_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("second_ventricle_sought")) is not None:
        add(this + "<https://w3id.org/chordae/model/second_ventricle_sought> " + (SoughtEnum.get(value) or text(value)))
    if (value := get("noncompaction")) is not None:
        add(this + "<https://w3id.org/chordae/model/noncompaction> " + (PresenceEnum.get(value) or text(value)))


def emit_ventricular_mass(add: Add, iri: str, node: Node, top: str) -> None:
    """How the ventricles lie to each other; never a ground for connections."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/VentricularMass> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("right_ventricle_lateral")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_ventricle_lateral> " + (LateralRelationEnum.get(value) or text(value)))
    if (value := get("right_ventricle_anteroposterior")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_ventricle_anteroposterior> " + (AnteroposteriorRelationEnum.get(value) or text(value)))
    if (value := get("right_ventricle_vertical")) is not None:
        add(this + "<https://w3id.org/chordae/model/right_ventricle_vertical> " + (VerticalRelationEnum.get(value) or text(value)))
    if (value := get("twisting")) is not None:
        add(this + "<https://w3id.org/chordae/model/twisting> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("tilting")) is not None:
        add(this + "<https://w3id.org/chordae/model/tilting> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("whole_heart_rotation")) is not None:
        add(this + "<https://w3id.org/chordae/model/whole_heart_rotation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("ventricular_balance")) is not None:
        add(this + "<https://w3id.org/chordae/model/ventricular_balance> " + (VentricularBalanceEnum.get(value) or text(value)))


def emit_ventricular_septum(add: Add, iri: str, node: Node, top: str) -> None:
    """The wall between the ventricles."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/VentricularSeptum> .")
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Part> .")
    if (value := get("state")) is not None:
        add(this + "<https://w3id.org/chordae/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<https://w3id.org/chordae/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        add(this + "<https://w3id.org/chordae/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<https://w3id.org/chordae/model/observed> <" + where + "> .")
            emit_feature_observation(add, where, inner, top)
    if (value := get("septal_integrity")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_integrity> " + (SeptalIntegrityEnum.get(value) or text(value)))
    if (value := get("septal_alignment")) is not None:
        add(this + "<https://w3id.org/chordae/model/septal_alignment> " + (SeptalAlignmentEnum.get(value) or text(value)))
    if (value := get("communication_count")) is not None:
        add(this + "<https://w3id.org/chordae/model/communication_count> " + integer(value))


def emit_waiver(add: Add, iri: str, node: Node, top: str) -> None:
    """A curator's confirmation of one warning on one record."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <https://w3id.org/chordae/model/Waiver> .")
    if (value := get("rule")) is not None:
        add(this + "<https://w3id.org/chordae/model/rule> " + text(value))
    if (value := get("part")) is not None:
        add(this + "<https://w3id.org/chordae/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("other_record")) is not None:
        add(this + "<https://w3id.org/chordae/model/other_record> " + text(value))
    if (value := get("reason")) is not None:
        add(this + "<https://w3id.org/chordae/model/reason> " + text(value))
    if (value := get("confirmed_by")) is not None:
        add(this + "<https://w3id.org/chordae/model/confirmed_by> " + text(value))
    if (value := get("confirmed_on")) is not None:
        add(this + "<https://w3id.org/chordae/model/confirmed_on> " + date(value))
    if (value := get("premises_digest")) is not None:
        add(this + "<https://w3id.org/chordae/model/premises_digest> " + text(value))
    if values := many(get("evidence_refs")):
        for value in values:
            add(this + "<https://w3id.org/chordae/model/evidence_refs> <" + top + "/evidence/" + name(value) + "> .")


CONCLUSIONS: dict[object, Callable[[Add, str, Node, str], None]] = {
    "DerivedConclusions": emit_derived_conclusions,
    "StatedConclusions": emit_stated_conclusions,
}


PART: dict[object, Callable[[Add, str, Node, str], None]] = {
    "AbdominalOrgans": emit_abdominal_organs,
    "AorticArch": emit_aortic_arch,
    "ArterialDuct": emit_arterial_duct,
    "ArterialTrunk": emit_arterial_trunk,
    "ArterialValve": emit_arterial_valve,
    "AtrialSeptum": emit_atrial_septum,
    "AtrioventricularJunction": emit_atrioventricular_junction,
    "AtrioventricularJunctions": emit_atrioventricular_junctions,
    "AtrioventricularValve": emit_atrioventricular_valve,
    "Atrium": emit_atrium,
    "ConductionFinding": emit_conduction_finding,
    "CoronaryArteries": emit_coronary_arteries,
    "GreatArteries": emit_great_arteries,
    "HeartPosition": emit_heart_position,
    "InteratrialCommunication": emit_interatrial_communication,
    "InterventricularCommunication": emit_interventricular_communication,
    "OutflowTract": emit_outflow_tract,
    "OutflowTracts": emit_outflow_tracts,
    "PulmonaryVeins": emit_pulmonary_veins,
    "SurgicalFinding": emit_surgical_finding,
    "SystemicVeins": emit_systemic_veins,
    "ThoracicOrgans": emit_thoracic_organs,
    "Ventricle": emit_ventricle,
    "VentricularMass": emit_ventricular_mass,
    "VentricularSeptum": emit_ventricular_septum,
}
