"""From a record to the lines that the rules read. Written by schema/generate.py; never edit it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from chordae.rdf.terms import date, decimal, integer, keyed, many, name, text
from chordae.shapes.short import term

Add = Callable[[str], None]
Look = Callable[[str | tuple[str, str]], None]
Node = Mapping[str, Any]

READS = (
    "AbdominalOrgans",
    "AorticArch",
    "ArterialDuct",
    "ArterialTrunk",
    "ArterialValve",
    "AtrialSeptum",
    "AtrioventricularJunction",
    "AtrioventricularJunctions",
    "AtrioventricularValve",
    "Atrium",
    "ConclusionBasis",
    "ConductionFinding",
    "CoronaryArteries",
    "DerivedConclusions",
    "Evidence",
    "FeatureObservation",
    "GreatArteries",
    "HeartPosition",
    "InteratrialCommunication",
    "InterventricularCommunication",
    "MaterialCondition",
    "Measurement",
    "OutflowTract",
    "OutflowTracts",
    "PulmonaryVeins",
    "Record",
    "Specimen",
    "StatedConclusions",
    "SurgicalFinding",
    "SystemicVeins",
    "ThoracicOrgans",
    "Ventricle",
    "VentricularMass",
    "VentricularSeptum",
    "abdominal_arrangement",
    "aberrant_subclavian",
    "accession",
    "acquired",
    "age_group",
    "age_text",
    "anterior_rim",
    "anterosuperior_leaflet",
    "aorta_relation",
    "aortic_leaflet",
    "aortic_tricuspid_continuity",
    "aortopulmonary_window",
    "apex",
    "apical_component",
    "apical_trabeculation",
    "appendage_junction",
    "appendage_morphology",
    "appendage_shape",
    "arch_branch_count",
    "arch_branches",
    "arch_hypoplasia",
    "arises_from",
    "arrangement_source",
    "arterial_atrioventricular_continuity",
    "arterial_valvar_continuity",
    "atrial_arrangement",
    "atrioventricular_septum",
    "av_connection",
    "azygos_continuation",
    "between_limbs",
    "body_measure",
    "bronchial_arrangement",
    "bronchus_crossed",
    "cardiac_position",
    "caudal_rim",
    "caval_aortic_relation",
    "circumflex_origin",
    "cleft",
    "coarctation",
    "collateral_arteries",
    "commissure_count",
    "commitment",
    "communication_count",
    "completeness",
    "conclusion",
    "conclusion_basis",
    "conduction_place",
    "conduction_structure",
    "consent",
    "consent_scope",
    "convention",
    "cord_to_ventricle",
    "coronary_sinus",
    "cut_level",
    "derived",
    "described_on",
    "description",
    "diagnoses",
    "disharmony",
    "dominance",
    "duct_patency",
    "duct_side",
    "duplicate_coronary_origin",
    "dysplasia",
    "evidence",
    "evidence_kind",
    "evidence_refs",
    "feature",
    "fixation",
    "free_standing_leaflet_bridging",
    "fusion_pattern",
    "geography",
    "gives_arch_branches",
    "gives_coronary_arteries",
    "gives_pulmonary_arteries",
    "gut_rotation",
    "hinge_offset_direction",
    "hinge_offset_mm",
    "histology_reference",
    "identity",
    "in_order_of",
    "inference_note",
    "inferior_bridging_leaflet",
    "inferior_caval_vein",
    "inferior_leaflet",
    "infundibulum",
    "infundibulum_below",
    "inlet_component",
    "interatrial_location",
    "interruption",
    "intramural_course",
    "intrapericardial_pulmonary_arteries",
    "junction",
    "junction_pattern",
    "leaflet_count",
    "left_coronary_origin",
    "left_sided_bronchus",
    "left_sided_lung_lobes",
    "left_superior_caval_vein",
    "left_superior_caval_vein_to",
    "leiden_code",
    "liver_side",
    "loan_from",
    "malalignment",
    "material",
    "material_state",
    "material_states",
    "measurements",
    "method",
    "modality",
    "moderator_band",
    "mural_leaflet",
    "noncompaction",
    "notation",
    "note",
    "observed",
    "observer",
    "opens_into",
    "opens_to_atrium",
    "operated",
    "operated_part",
    "orifice_level",
    "outflow_of",
    "outlet_component",
    "outlet_septum",
    "outlet_septum_deviation",
    "oval_fossa_flap",
    "oval_fossa_rim",
    "override_per_cent",
    "overriding",
    "paracommissural_orifice",
    "part",
    "parts",
    "patency",
    "pectinate_extent",
    "per_cent",
    "per_cent_to_left_ventricle",
    "plane_of_closure",
    "posteroinferior_rim",
    "procedure",
    "pulmonary_vein_count",
    "pulmonary_veins_to_left_atrium",
    "pulmonary_venous_connection",
    "quantity",
    "quote",
    "raphe_count",
    "reference_set",
    "rests_on",
    "retro_oesophageal",
    "right_coronary_origin",
    "right_sided_bronchus",
    "right_sided_lung_lobes",
    "right_ventricle_anteroposterior",
    "right_ventricle_lateral",
    "right_ventricle_vertical",
    "roof_rim",
    "school",
    "second_ventricle_sought",
    "selector",
    "septal_alignment",
    "septal_chordal_attachment",
    "septal_integrity",
    "septal_leaflet",
    "septal_surface",
    "septal_valve_attachments",
    "septomarginal_trabeculation",
    "shows",
    "side",
    "single_coronary_artery",
    "sinus_count",
    "site",
    "specimen",
    "spleen",
    "state",
    "state_reason",
    "stated",
    "stated_arch_side",
    "stated_arterial_valve",
    "stated_atrial_identity",
    "stated_border_category",
    "stated_interruption_type",
    "stated_trunk_identity",
    "stated_valve_type",
    "stated_ventricular_identity",
    "statement",
    "stomach_side",
    "straddling",
    "straddling_attachment",
    "straddling_degree",
    "structure",
    "superior_bridging_leaflet",
    "terminal_crest",
    "text",
    "tilting",
    "topology",
    "tricuspid_mitral_continuity",
    "trunk_calibre",
    "trunk_course",
    "twisting",
    "two_leaflet_type",
    "unit",
    "va_connection",
    "value",
    "valvar_orifices",
    "valve_patency",
    "vascular_ring",
    "ventricle",
    "ventricle_position",
    "ventricle_size",
    "ventricular_balance",
    "viewing_convention",
    "whole_heart_rotation",
    "zone_of_apposition",
)

AgeGroupEnum: dict[object, str] = {
    "fetus": "<c:/term/fetus> .",
    "neonate": "<c:/term/neonate> .",
    "infant": "<c:/term/infant> .",
    "child": "<c:/term/child> .",
    "adolescent": "<c:/term/adolescent> .",
    "adult": "<c:/term/adult> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AnomalousVenousSiteEnum: dict[object, str] = {
    "supracardiac": "<c:/term/totally_anomalous_pulmonary_venous_connection_supracardiac> .",
    "cardiac": "<c:/term/totally_anomalous_pulmonary_venous_connection_cardiac> .",
    "infracardiac": "<c:/term/totally_anomalous_pulmonary_venous_connection_infracardiac> .",
    "mixed": "<c:/term/totally_anomalous_pulmonary_venous_connection_mixed> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AnteroposteriorRelationEnum: dict[object, str] = {
    "anterior": "<c:/term/anterior_position> .",
    "posterior": "<c:/term/posterior_position> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AortaRelationEnum: dict[object, str] = {
    "normal": "<c:/term/normally_related_trunks> .",
    "mirror_normal": "<c:/term/mirror_imaged_normal_trunks> .",
    "right": "<c:/term/aorta_to_the_right> .",
    "left": "<c:/term/aorta_to_the_left> .",
    "anterior": "<c:/term/aorta_anterior> .",
    "anterior_right": "<c:/term/aorta_anterior_right> .",
    "anterior_left": "<c:/term/aorta_anterior_left> .",
    "right_side_by_side": "<c:/term/aorta_right_side_by_side> .",
    "left_side_by_side": "<c:/term/aorta_left_side_by_side> .",
    "posterior": "<c:/term/aorta_posterior> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ApexEnum: dict[object, str] = {
    "left": "<c:/term/apex_to_the_left> .",
    "right": "<c:/term/apex_to_the_right> .",
    "midline": "<c:/term/apex_in_the_midline> .",
    "inferior": "<c:/term/apex_inferior> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ApicalTrabeculationEnum: dict[object, str] = {
    "coarse": "<c:/term/coarse_apical_trabeculations> .",
    "fine": "<c:/term/fine_apical_trabeculations> .",
    "neither": "<c:/term/indeterminate_apical_trabeculations> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AppendageJunctionEnum: dict[object, str] = {
    "broad": "<c:/term/broad_appendage_junction> .",
    "narrow": "<c:/term/narrow_appendage_junction> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AppendageMorphologyEnum: dict[object, str] = {
    "morphologically_right": "<c:/term/morphologically_right_atrial_appendage> .",
    "morphologically_left": "<c:/term/morphologically_left_atrial_appendage> .",
    "indeterminate": "<c:/term/indeterminate_appendage> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AppendagePositionEnum: dict[object, str] = {
    "usual": "<c:/term/usual_appendage_position> .",
    "juxtaposed": "<c:/term/juxtaposed_appendage> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AppendageShapeEnum: dict[object, str] = {
    "triangular": "<c:/term/triangular_appendage> .",
    "tubular": "<c:/term/tubular_appendage> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ArchBranchEnum: dict[object, str] = {
    "right_brachiocephalic": "<c:/term/right_brachiocephalic_artery> .",
    "left_brachiocephalic": "<c:/term/left_brachiocephalic_artery> .",
    "right_common_carotid": "<c:/term/right_common_carotid_artery> .",
    "left_common_carotid": "<c:/term/left_common_carotid_artery> .",
    "right_subclavian": "<c:/term/right_subclavian_artery> .",
    "left_subclavian": "<c:/term/left_subclavian_artery> .",
    "vertebral": "<c:/term/vertebral_artery> .",
}

ArchSideEnum: dict[object, str] = {
    "left": "<c:/term/left_aortic_arch> .",
    "right": "<c:/term/right_aortic_arch> .",
    "double": "<c:/term/double_aortic_arch> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ArrangementSourceEnum: dict[object, str] = {
    "seen_in_specimen": "<c:/term/seen_in_specimen> .",
    "autopsy_report": "<c:/term/autopsy_report> .",
    "clinical_report": "<c:/term/clinical_report> .",
}

ArterialTargetEnum: dict[object, str] = {
    "aortic": "<c:/term/aortic_valve> .",
    "pulmonary": "<c:/term/pulmonary_valve> .",
    "truncal": "<c:/term/truncal_valve> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AssessabilityReasonEnum: dict[object, str] = {
    "removed_at_surgery": "<c:/term/removed_at_surgery> .",
    "removed_at_dissection": "<c:/term/removed_at_dissection> .",
    "transected": "<c:/term/transected> .",
    "damaged": "<c:/term/damaged> .",
    "obscured": "<c:/term/obscured> .",
    "not_in_material": "<c:/term/not_in_material> .",
}

AtrialArrangementEnum: dict[object, str] = {
    "usual": "<c:/term/usual_atrial_arrangement> .",
    "mirror_image": "<c:/term/mirror_imaged_atrial_arrangement> .",
    "right_isomerism": "<c:/term/right_isomerism> .",
    "left_isomerism": "<c:/term/left_isomerism> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AtrialIdentityEnum: dict[object, str] = {
    "morphologically_right_atrium": "<c:/term/morphologically_right_atrium> .",
    "morphologically_left_atrium": "<c:/term/morphologically_left_atrium> .",
    "common_atrium": "<c:/term/common_atrium> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AtrialSideEnum: dict[object, str] = {
    "right_sided_atrium": "<c:/term/right_sided_atrium> .",
    "left_sided_atrium": "<c:/term/left_sided_atrium> .",
    "both_atria": "<c:/term/both_atria> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

AtrioventricularConnectionEnum: dict[object, str] = {
    "concordant": "<c:/term/concordant_atrioventricular_connections> .",
    "discordant": "<c:/term/discordant_atrioventricular_connections> .",
    "mixed": "<c:/term/mixed_atrioventricular_connections> .",
    "double_inlet_lv": "<c:/term/double_inlet_left_ventricle> .",
    "double_inlet_rv": "<c:/term/double_inlet_right_ventricle> .",
    "double_inlet_solitary": "<c:/term/double_inlet_solitary_ventricle> .",
    "absent_right": "<c:/term/absent_right_atrioventricular_connection> .",
    "absent_left": "<c:/term/absent_left_atrioventricular_connection> .",
    "uniatrial_biventricular": "<c:/term/uniatrial_biventricular_connection> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

BorderCategoryEnum: dict[object, str] = {
    "perimembranous": "<c:/term/perimembranous_ventricular_septal_defect> .",
    "muscular": "<c:/term/muscular_ventricular_septal_defect> .",
    "juxta_arterial": "<c:/term/doubly_committed_juxta_arterial_ventricular_septal_defect> .",
    "juxta_arterial_perimembranous": "<c:/term/juxta_arterial_perimembranous_defect> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

BronchusCrossedEnum: dict[object, str] = {
    "left": "<c:/term/crosses_left_bronchus> .",
    "right": "<c:/term/crosses_right_bronchus> .",
    "both": "<c:/term/crosses_both_bronchi> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

BronchusEnum: dict[object, str] = {
    "morphologically_right": "<c:/term/morphologically_right_bronchus> .",
    "morphologically_left": "<c:/term/morphologically_left_bronchus> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CardiacPositionEnum: dict[object, str] = {
    "left_sided": "<c:/term/left_sided_heart> .",
    "right_sided": "<c:/term/right_sided_heart> .",
    "midline": "<c:/term/midline_heart> .",
    "extrathoracic": "<c:/term/extrathoracic_heart> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CavalAorticRelationEnum: dict[object, str] = {
    "usual": "<c:/term/caval_vein_right_of_aorta> .",
    "mirror_image": "<c:/term/caval_vein_left_of_aorta> .",
    "same_side": "<c:/term/caval_vein_and_aorta_on_one_side> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CavalDrainageEnum: dict[object, str] = {
    "coronary_sinus": "<c:/term/left_superior_caval_vein_to_coronary_sinus> .",
    "roof_of_left_sided_atrium": "<c:/term/left_superior_caval_vein_to_left_atrium> .",
    "right_sided_atrium": "<c:/term/left_superior_caval_vein_to_right_sided_atrium> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ChamberSizeEnum: dict[object, str] = {
    "normal": "<c:/term/normal_size> .",
    "hypoplastic": "<c:/term/hypoplastic_chamber> .",
    "dilated": "<c:/term/dilated_chamber> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CommitmentEnum: dict[object, str] = {
    "subaortic": "<c:/term/subaortic_commitment> .",
    "subpulmonary": "<c:/term/subpulmonary_commitment> .",
    "doubly_committed": "<c:/term/doubly_committed> .",
    "non_committed": "<c:/term/non_committed> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CommunicationPatencyEnum: dict[object, str] = {
    "open": "<c:/term/open_communication> .",
    "closed_by_patch": "<c:/term/closed_by_patch> .",
    "closed_spontaneously": "<c:/term/closed_spontaneously> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CompletenessEnum: dict[object, str] = {
    "complete": "<c:/term/complete_ventricle> .",
    "incomplete": "<c:/term/incomplete_ventricle> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ConclusionNameEnum: dict[object, str] = {
    "atrial_arrangement": "<c:/term/atrial_arrangement> .",
    "topology": "<c:/term/ventricular_topology> .",
    "av_connection": "<c:/term/atrioventricular_connection> .",
    "va_connection": "<c:/term/ventriculoarterial_connection> .",
    "trunk_identity": "<c:/term/arterial_trunk_identity> .",
    "arch_side": "<c:/term/aortic_arch_side> .",
}

ConductionStructureEnum: dict[object, str] = {
    "sinus_node": "<c:/term/sinus_node> .",
    "atrioventricular_node": "<c:/term/atrioventricular_node> .",
    "penetrating_bundle": "<c:/term/penetrating_bundle> .",
    "left_bundle_branch": "<c:/term/left_bundle_branch> .",
    "right_bundle_branch": "<c:/term/right_bundle_branch> .",
}

ConsentEnum: dict[object, str] = {
    "written_consent": "<c:/term/written_consent> .",
    "post_mortem_consent": "<c:/term/post_mortem_consent> .",
    "coroner": "<c:/term/coroner> .",
    "historic": "<c:/term/historic_holding> .",
    "unknown_consent": "<c:/term/unknown_consent> .",
}

ConsentScopeEnum: dict[object, str] = {
    "teaching": "<c:/term/teaching> .",
    "research": "<c:/term/research> .",
    "images": "<c:/term/images> .",
    "public_display": "<c:/term/public_display> .",
    "three_dimensional_models": "<c:/term/three_dimensional_models> .",
    "loan": "<c:/term/loan_to_others> .",
}

CoronaryDominanceEnum: dict[object, str] = {
    "right": "<c:/term/right_coronary_dominance> .",
    "left": "<c:/term/left_coronary_dominance> .",
    "balanced": "<c:/term/balanced_coronary_dominance> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CoronaryOriginEnum: dict[object, str] = {
    "sinus_1": "<c:/term/leiden_sinus_1> .",
    "sinus_2": "<c:/term/leiden_sinus_2> .",
    "non_facing_sinus": "<c:/term/non_facing_sinus> .",
    "above_sinuses": "<c:/term/origin_above_sinuses> .",
    "pulmonary_trunk": "<c:/term/origin_from_pulmonary_trunk> .",
    "other_coronary_artery": "<c:/term/origin_from_other_coronary_artery> .",
    "absent": "<c:/term/absent_coronary_orifice> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CoronarySinusEnum: dict[object, str] = {
    "present": "<c:/term/coronary_sinus_present> .",
    "absent": "<c:/term/coronary_sinus_absent> .",
    "unroofed": "<c:/term/unroofed_coronary_sinus> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

CutLevelEnum: dict[object, str] = {
    "not_cut": "<c:/term/not_cut> .",
    "sinutubular_junction": "<c:/term/cut_at_sinutubular_junction> .",
    "ascending": "<c:/term/cut_in_ascending_part> .",
    "arch": "<c:/term/cut_in_arch> .",
    "beyond_arch": "<c:/term/cut_beyond_arch> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

DefectGeographyEnum: dict[object, str] = {
    "central": "<c:/term/central_perimembranous_position> .",
    "inlet": "<c:/term/inlet_position> .",
    "trabecular": "<c:/term/trabecular_position> .",
    "midseptal": "<c:/term/midseptal_position> .",
    "apical": "<c:/term/apical_position> .",
    "posteroinferior": "<c:/term/posteroinferior_position> .",
    "anterosuperior": "<c:/term/anterosuperior_position> .",
    "outlet": "<c:/term/outlet_position> .",
    "confluent": "<c:/term/confluent_position> .",
    "atrioventricular_septal": "<c:/term/ventricular_component_of_avsd> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

DisharmonyEnum: dict[object, str] = {
    "confirmed": "<c:/term/confirmed_disharmony> .",
    "not_confirmed": "<c:/term/unconfirmed_disharmony> .",
}

DividedAtriumEnum: dict[object, str] = {
    "left": "<c:/term/divided_left_atrium> .",
    "right": "<c:/term/divided_right_atrium> .",
    "none": "<c:/term/no_dividing_shelf> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

DuctPatencyEnum: dict[object, str] = {
    "patent": "<c:/term/patent_arterial_duct> .",
    "closed": "<c:/term/closed_arterial_duct> .",
    "ligament": "<c:/term/arterial_ligament> .",
    "absent": "<c:/term/absent_arterial_duct> .",
    "not_identified": "<c:/term/arterial_duct_not_identified> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

DuctSideEnum: dict[object, str] = {
    "left_sided": "<c:/term/left_sided> .",
    "right_sided": "<c:/term/right_sided> .",
    "bilateral": "<c:/term/bilateral_structure> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

EvidenceKindEnum: dict[object, str] = {
    "photograph": "<c:/term/photograph> .",
    "video": "<c:/term/video_sequence> .",
    "scan": "<c:/term/volume_scan> .",
    "drawing": "<c:/term/drawing> .",
    "report": "<c:/term/written_report> .",
    "histology": "<c:/term/histological_section> .",
}

FibrousContinuityEnum: dict[object, str] = {
    "mitral": "<c:/term/continuity_with_mitral_valve> .",
    "tricuspid": "<c:/term/continuity_with_tricuspid_valve> .",
    "both": "<c:/term/continuity_with_both_valves> .",
    "common_valve": "<c:/term/continuity_with_common_valve> .",
    "none": "<c:/term/no_fibrous_continuity> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

FloorTissueEnum: dict[object, str] = {
    "muscular": "<c:/term/muscular_atrial_floor> .",
    "fibrofatty": "<c:/term/fibrofatty_groove_tissue> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

FusionPatternEnum: dict[object, str] = {
    "right_left": "<c:/term/right_left_fusion> .",
    "right_non": "<c:/term/right_non_coronary_fusion> .",
    "left_non": "<c:/term/left_non_coronary_fusion> .",
    "none": "<c:/term/no_fusion> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

GutRotationEnum: dict[object, str] = {
    "normal": "<c:/term/normal_gut_rotation> .",
    "malrotated": "<c:/term/malrotated_gut> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

HingeOffsetEnum: dict[object, str] = {
    "usual": "<c:/term/usual_hinge_offset> .",
    "level": "<c:/term/level_hinges> .",
    "reversed": "<c:/term/reversed_hinge_offset> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InferiorCavalVeinEnum: dict[object, str] = {
    "continuous": "<c:/term/uninterrupted_inferior_caval_vein> .",
    "interrupted": "<c:/term/interrupted_inferior_caval_vein> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InfundibularMuscleEnum: dict[object, str] = {
    "complete": "<c:/term/complete_muscular_infundibulum> .",
    "incomplete": "<c:/term/incomplete_muscular_infundibulum> .",
    "absent": "<c:/term/absent_muscular_infundibulum> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InfundibulumPatternEnum: dict[object, str] = {
    "subaortic_only": "<c:/term/subaortic_infundibulum> .",
    "subpulmonary_only": "<c:/term/subpulmonary_infundibulum> .",
    "bilateral": "<c:/term/bilateral_infundibulums> .",
    "bilaterally_absent": "<c:/term/bilaterally_absent_infundibulums> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InteratrialLocationEnum: dict[object, str] = {
    "oval_fossa": "<c:/term/oval_fossa_defect> .",
    "patent_oval_foramen": "<c:/term/patent_oval_foramen> .",
    "primum": "<c:/term/ostium_primum_defect> .",
    "superior_sinus_venosus": "<c:/term/superior_sinus_venosus_defect> .",
    "inferior_sinus_venosus": "<c:/term/inferior_sinus_venosus_defect> .",
    "coronary_sinus": "<c:/term/coronary_sinus_defect> .",
    "vestibular": "<c:/term/vestibular_defect> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InterruptionSiteEnum: dict[object, str] = {
    "none": "<c:/term/uninterrupted_arch> .",
    "distal_to_subclavian": "<c:/term/interruption_distal_to_subclavian> .",
    "between_carotid_and_subclavian": "<c:/term/interruption_between_carotid_and_subclavian> .",
    "between_carotids": "<c:/term/interruption_between_carotids> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

InterruptionTypeEnum: dict[object, str] = {
    "A": "<c:/term/interrupted_aortic_arch_type_a> .",
    "B": "<c:/term/interrupted_aortic_arch_type_b> .",
    "C": "<c:/term/interrupted_aortic_arch_type_c> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

JunctionPatternEnum: dict[object, str] = {
    "separate": "<c:/term/separate_atrioventricular_junctions> .",
    "common": "<c:/term/common_atrioventricular_junction> .",
    "solitary": "<c:/term/solitary_atrioventricular_junction> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

LateralRelationEnum: dict[object, str] = {
    "right_sided": "<c:/term/right_sided> .",
    "left_sided": "<c:/term/left_sided> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

LeafletEnum: dict[object, str] = {
    "normal": "<c:/term/normal_leaflet> .",
    "displaced": "<c:/term/displaced_leaflet> .",
    "dysplastic": "<c:/term/dysplastic_leaflet> .",
    "tethered": "<c:/term/tethered_leaflet> .",
    "cleft": "<c:/term/cleft_leaflet> .",
    "fused": "<c:/term/fused_leaflet> .",
    "absent": "<c:/term/absent_leaflet> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

MalalignmentEnum: dict[object, str] = {
    "none": "<c:/term/no_malalignment> .",
    "anterior_outlet": "<c:/term/anteriorly_malaligned_outlet_septum> .",
    "posterior_outlet": "<c:/term/posteriorly_malaligned_outlet_septum> .",
    "inlet": "<c:/term/malaligned_inlet_septum> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

MaterialEnum: dict[object, str] = {
    "whole_body": "<c:/term/whole_body> .",
    "thoracic_and_abdominal_organs": "<c:/term/thoracic_and_abdominal_organs> .",
    "heart_lung_block": "<c:/term/heart_lung_block> .",
    "isolated_heart": "<c:/term/isolated_heart> .",
    "heart_slices": "<c:/term/heart_slices> .",
    "heart_part": "<c:/term/heart_part> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

MaterialStateEnum: dict[object, str] = {
    "fresh": "<c:/term/fresh> .",
    "formalin_fixed": "<c:/term/formalin_fixed> .",
    "alcohol": "<c:/term/alcohol> .",
    "glycerin": "<c:/term/glycerin> .",
    "wax_infiltrated": "<c:/term/wax_infiltrated> .",
    "plastinated": "<c:/term/plastinated> .",
    "dry": "<c:/term/dry> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ObservationStateEnum: dict[object, str] = {
    "present": "<c:/term/present> .",
    "absent": "<c:/term/absent> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ObstructionEnum: dict[object, str] = {
    "none": "<c:/term/no_obstruction> .",
    "subvalvar": "<c:/term/subvalvar_obstruction> .",
    "valvar": "<c:/term/valvar_obstruction> .",
    "supravalvar": "<c:/term/supravalvar_obstruction> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OrganArrangementEnum: dict[object, str] = {
    "usual": "<c:/term/usual_organ_arrangement> .",
    "mirror_image": "<c:/term/mirror_imaged_organ_arrangement> .",
    "right_isomerism": "<c:/term/right_bronchial_isomerism> .",
    "left_isomerism": "<c:/term/left_bronchial_isomerism> .",
    "mixed": "<c:/term/abdominal_heterotaxy> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OrganSideEnum: dict[object, str] = {
    "right_sided": "<c:/term/right_sided> .",
    "left_sided": "<c:/term/left_sided> .",
    "midline": "<c:/term/midline_position> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OrificeLevelEnum: dict[object, str] = {
    "in_sinus": "<c:/term/orifice_in_sinus> .",
    "at_sinutubular_junction": "<c:/term/orifice_at_sinutubular_junction> .",
    "above_sinutubular_junction": "<c:/term/orifice_above_sinutubular_junction> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OutletInletEnum: dict[object, str] = {
    "equal": "<c:/term/outlet_equal_to_inlet> .",
    "outlet_longer": "<c:/term/outlet_longer_than_inlet> .",
    "inlet_longer": "<c:/term/inlet_longer_than_outlet> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OutletSeptumDeviationEnum: dict[object, str] = {
    "none": "<c:/term/aligned_outlet_septum> .",
    "anterior": "<c:/term/anteriorly_malaligned_outlet_septum> .",
    "posterior": "<c:/term/posteriorly_malaligned_outlet_septum> .",
    "perpendicular": "<c:/term/perpendicular_outlet_septum> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

OutletSeptumEnum: dict[object, str] = {
    "muscular": "<c:/term/muscular_outlet_septum> .",
    "fibrous": "<c:/term/fibrous_outlet_septum> .",
    "absent": "<c:/term/absent_outlet_septum> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

PapillaryPatternEnum: dict[object, str] = {
    "paired": "<c:/term/paired_papillary_muscles> .",
    "multiple_small": "<c:/term/multiple_small_papillary_muscles> .",
    "single_group": "<c:/term/single_papillary_group> .",
    "arcade": "<c:/term/papillary_arcade> .",
    "absent": "<c:/term/absent_papillary_muscles> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

PectinateExtentEnum: dict[object, str] = {
    "to_crux": "<c:/term/pectinate_muscles_to_crux> .",
    "confined_to_appendage": "<c:/term/pectinate_muscles_confined_to_appendage> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

PlaneOfClosureEnum: dict[object, str] = {
    "hole_itself": "<c:/term/plane_of_the_hole> .",
    "baffle_plane": "<c:/term/plane_of_the_baffle> .",
    "crest_to_outlet_septum": "<c:/term/plane_of_the_septal_crest> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

PresenceEnum: dict[object, str] = {
    "present": "<c:/term/present> .",
    "absent": "<c:/term/absent> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ProcedureEnum: dict[object, str] = {
    "patch": "<c:/term/surgical_patch> .",
    "conduit": "<c:/term/surgical_conduit> .",
    "band": "<c:/term/pulmonary_arterial_band> .",
    "shunt": "<c:/term/surgical_shunt> .",
    "valve_prosthesis": "<c:/term/prosthetic_valve> .",
    "excision": "<c:/term/surgical_excision> .",
    "stitches": "<c:/term/surgical_stitches> .",
}

PulmonaryOriginEnum: dict[object, str] = {
    "short_common": "<c:/term/common_pulmonary_stem> .",
    "close_separate": "<c:/term/close_separate_pulmonary_origins> .",
    "wide_separate": "<c:/term/wide_separate_pulmonary_origins> .",
    "intermediate": "<c:/term/intermediate_pulmonary_origin> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

PulmonaryVenousConnectionEnum: dict[object, str] = {
    "normal": "<c:/term/normal_pulmonary_venous_connection> .",
    "partially_anomalous": "<c:/term/partially_anomalous_pulmonary_venous_connection> .",
    "totally_anomalous": "<c:/term/totally_anomalous_pulmonary_venous_connection> .",
    "anomalous_with_isomerism": "<c:/term/pulmonary_veins_anomalous_in_isomerism> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

QuantityEnum: dict[object, str] = {
    "weight": "<c:/term/heart_weight> .",
    "length": "<c:/term/length> .",
    "width": "<c:/term/width> .",
    "diameter": "<c:/term/diameter> .",
    "circumference": "<c:/term/circumference> .",
    "wall_thickness": "<c:/term/wall_thickness> .",
    "area": "<c:/term/area> .",
    "hinge_offset": "<c:/term/hinge_offset> .",
    "z_score": "<c:/term/z_score> .",
    "age_days": "<c:/term/age_in_days> .",
    "gestational_weeks": "<c:/term/gestational_age_in_weeks> .",
}

RastelliEnum: dict[object, str] = {
    "A": "<c:/term/superior_bridging_leaflet_type_a> .",
    "B": "<c:/term/superior_bridging_leaflet_type_b> .",
    "C": "<c:/term/superior_bridging_leaflet_type_c> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

RimEnum: dict[object, str] = {
    "muscular": "<c:/term/muscular_rim> .",
    "fibrous": "<c:/term/fibrous_rim> .",
    "outlet_septum": "<c:/term/outlet_septum_rim> .",
    "arterial_valves": "<c:/term/arterial_valvar_rim> .",
    "absent": "<c:/term/absent_rim> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

SchoolEnum: dict[object, str] = {
    "european": "<c:/term/european_school> .",
    "north_american": "<c:/term/north_american_school> .",
    "mixed": "<c:/term/mixed_nomenclature> .",
}

SeptalAlignmentEnum: dict[object, str] = {
    "aligned": "<c:/term/aligned_septa> .",
    "malaligned": "<c:/term/malaligned_septa> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

SeptalIntegrityEnum: dict[object, str] = {
    "intact": "<c:/term/intact_septum> .",
    "deficient": "<c:/term/deficient_septum> .",
    "absent": "<c:/term/absent_septum> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

SeptalSurfaceEnum: dict[object, str] = {
    "coarse": "<c:/term/coarse_septal_surface> .",
    "smooth": "<c:/term/smooth_septal_surface> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

SideEnum: dict[object, str] = {
    "right_sided": "<c:/term/right_sided> .",
    "left_sided": "<c:/term/left_sided> .",
    "midline": "<c:/term/midline_position> .",
    "common": "<c:/term/common_structure> .",
    "solitary": "<c:/term/solitary_structure> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

SoughtEnum: dict[object, str] = {
    "slices": "<c:/term/sought_in_slices> .",
    "scan": "<c:/term/sought_by_scan> .",
    "probe": "<c:/term/sought_by_probe> .",
    "not_sought": "<c:/term/not_sought> .",
}

SpleenEnum: dict[object, str] = {
    "left_sided": "<c:/term/left_sided_spleen> .",
    "right_sided": "<c:/term/right_sided_spleen> .",
    "absent": "<c:/term/asplenia> .",
    "multiple": "<c:/term/multiple_spleens> .",
    "other": "<c:/term/other_splenic_form> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

StraddlingDegreeEnum: dict[object, str] = {
    "near_crest": "<c:/term/straddling_to_near_crest> .",
    "along_septum": "<c:/term/straddling_along_septum> .",
    "far_wall": "<c:/term/straddling_to_far_wall> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TopologyEnum: dict[object, str] = {
    "right_hand": "<c:/term/right_hand_topology> .",
    "left_hand": "<c:/term/left_hand_topology> .",
    "undetermined": "<c:/term/undetermined_topology> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TrunkCalibreEnum: dict[object, str] = {
    "normal": "<c:/term/normal_calibre> .",
    "hypoplastic": "<c:/term/hypoplastic_trunk> .",
    "atretic": "<c:/term/atretic_trunk> .",
    "dilated": "<c:/term/dilated_trunk> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TrunkCourseEnum: dict[object, str] = {
    "spiral": "<c:/term/spiralling_trunks> .",
    "parallel": "<c:/term/parallel_trunks> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TrunkDominanceEnum: dict[object, str] = {
    "aortic": "<c:/term/aortic_dominance> .",
    "pulmonary": "<c:/term/pulmonary_dominance> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TrunkIdentityEnum: dict[object, str] = {
    "aorta": "<c:/term/aorta> .",
    "pulmonary_trunk": "<c:/term/pulmonary_trunk> .",
    "common_arterial_trunk": "<c:/term/common_trunk> .",
    "solitary_arterial_trunk": "<c:/term/solitary_trunk> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

TwoLeafletTypeEnum: dict[object, str] = {
    "fused": "<c:/term/fused_two_leaflet_valve> .",
    "two_sinus": "<c:/term/two_sinus_valve> .",
    "partial_fusion": "<c:/term/partial_fusion_valve> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ValvarOrificesEnum: dict[object, str] = {
    "two_valves": "<c:/term/two_atrioventricular_valves> .",
    "common_orifice": "<c:/term/common_valvar_orifice> .",
    "separate_orifices": "<c:/term/separate_valvar_orifices> .",
    "one_valve": "<c:/term/solitary_atrioventricular_valve> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ValvePatencyEnum: dict[object, str] = {
    "patent": "<c:/term/patent_valve> .",
    "imperforate": "<c:/term/imperforate_valve> .",
    "replaced": "<c:/term/replaced_valve> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ValveTypeEnum: dict[object, str] = {
    "tricuspid": "<c:/term/tricuspid_valve> .",
    "mitral": "<c:/term/mitral_valve> .",
    "common": "<c:/term/common_atrioventricular_valve> .",
    "right_atrioventricular": "<c:/term/right_atrioventricular_valve> .",
    "left_atrioventricular": "<c:/term/left_atrioventricular_valve> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

VentriclePositionEnum: dict[object, str] = {
    "right_sided": "<c:/term/right_sided> .",
    "left_sided": "<c:/term/left_sided> .",
    "anterior": "<c:/term/anterior_position> .",
    "posterior": "<c:/term/posterior_position> .",
    "superior": "<c:/term/superior_position> .",
    "inferior": "<c:/term/inferior_position> .",
}

VentricularBalanceEnum: dict[object, str] = {
    "balanced": "<c:/term/balanced_ventricles> .",
    "right_dominant": "<c:/term/right_ventricular_dominance> .",
    "left_dominant": "<c:/term/left_ventricular_dominance> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

VentricularIdentityEnum: dict[object, str] = {
    "morphologically_right_ventricle": "<c:/term/morphologically_right_ventricle> .",
    "morphologically_left_ventricle": "<c:/term/morphologically_left_ventricle> .",
    "solitary_indeterminate_ventricle": "<c:/term/solitary_indeterminate_ventricle> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

VentriculoarterialConnectionEnum: dict[object, str] = {
    "concordant": "<c:/term/concordant_ventriculoarterial_connections> .",
    "discordant": "<c:/term/discordant_ventriculoarterial_connections> .",
    "double_outlet_rv": "<c:/term/double_outlet_right_ventricle> .",
    "double_outlet_lv": "<c:/term/double_outlet_left_ventricle> .",
    "double_outlet_both": "<c:/term/double_outlet_of_both_ventricles> .",
    "double_outlet_solitary": "<c:/term/double_outlet_solitary_ventricle> .",
    "single_outlet_common_trunk": "<c:/term/single_outlet_common_arterial_trunk> .",
    "single_outlet_solitary_trunk": "<c:/term/single_outlet_solitary_arterial_trunk> .",
    "single_outlet_pulmonary_atresia": "<c:/term/single_outlet_aorta_with_pulmonary_atresia> .",
    "single_outlet_aortic_atresia": "<c:/term/single_outlet_pulmonary_trunk_with_aortic_atresia> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

VerticalRelationEnum: dict[object, str] = {
    "superior": "<c:/term/superior_position> .",
    "inferior": "<c:/term/inferior_position> .",
    "not_assessable": "<c:/term/not_assessable> .",
    "not_examined": "<c:/term/not_examined> .",
}

ViewingConventionEnum: dict[object, str] = {
    "surgical": "<c:/term/surgical_view> .",
    "imaging": "<c:/term/imaging_view> .",
}


def emit_abdominal_organs(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Liver, stomach, spleen, gut."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AbdominalOrgans> .")
    look("AbdominalOrgans")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("liver_side")) is not None:
        add(this + "<c:/model/liver_side> " + (OrganSideEnum.get(value) or text(value)))
    if (value := get("stomach_side")) is not None:
        add(this + "<c:/model/stomach_side> " + (OrganSideEnum.get(value) or text(value)))
    if (value := get("spleen")) is not None:
        add(this + "<c:/model/spleen> " + (SpleenEnum.get(value) or text(value)))
    if (value := get("gut_rotation")) is not None:
        add(this + "<c:/model/gut_rotation> " + (GutRotationEnum.get(value) or text(value)))
    if (value := get("abdominal_arrangement")) is not None:
        add(this + "<c:/model/abdominal_arrangement> " + (OrganArrangementEnum.get(value) or text(value)))
    if (value := get("caval_aortic_relation")) is not None:
        add(this + "<c:/model/caval_aortic_relation> " + (CavalAorticRelationEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<c:/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_aortic_arch(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The arch of the aorta and its branches."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AorticArch> .")
    look("AorticArch")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("bronchus_crossed")) is not None:
        add(this + "<c:/model/bronchus_crossed> " + (BronchusCrossedEnum.get(value) or text(value)))
    if (value := get("stated_arch_side")) is not None:
        add(this + "<c:/model/stated_arch_side> " + (ArchSideEnum.get(value) or text(value)))
    if (value := get("descending_aorta_side")) is not None:
        add(this + "<c:/model/descending_aorta_side> " + (SideEnum.get(value) or text(value)))
    if values := many(get("arch_branches")):
        for value in values:
            add(this + "<c:/model/arch_branches> " + (ArchBranchEnum.get(value) or text(value)))
        order = f"<{iri}/arch_branches> "
        add(order + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <http://www.w3.org/1999/02/22-rdf-syntax-ns#Seq> .")
        add(order + "<c:/model/in_order_of> <" + iri + "> .")
        add(order + "<c:/model/feature> " + text("arch_branches"))
        for number, value in enumerate(values, 1):
            add(order + f"<http://www.w3.org/1999/02/22-rdf-syntax-ns#_{number}> " + (ArchBranchEnum.get(value) or text(value)))
    if (value := get("arch_branch_count")) is not None:
        add(this + "<c:/model/arch_branch_count> " + integer(value))
    if (value := get("aberrant_subclavian")) is not None:
        add(this + "<c:/model/aberrant_subclavian> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("interruption")) is not None:
        add(this + "<c:/model/interruption> " + (InterruptionSiteEnum.get(value) or text(value)))
    if (value := get("stated_interruption_type")) is not None:
        add(this + "<c:/model/stated_interruption_type> " + (InterruptionTypeEnum.get(value) or text(value)))
    if (value := get("coarctation")) is not None:
        add(this + "<c:/model/coarctation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("arch_hypoplasia")) is not None:
        add(this + "<c:/model/arch_hypoplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("vascular_ring")) is not None:
        add(this + "<c:/model/vascular_ring> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cervical_arch")) is not None:
        add(this + "<c:/model/cervical_arch> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_duct(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The duct between pulmonary artery and aorta, or its ligament."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ArterialDuct> .")
    look("ArterialDuct")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("duct_patency")) is not None:
        add(this + "<c:/model/duct_patency> " + (DuctPatencyEnum.get(value) or text(value)))
    if (value := get("duct_side")) is not None:
        add(this + "<c:/model/duct_side> " + (DuctSideEnum.get(value) or text(value)))
    if (value := get("retro_oesophageal")) is not None:
        add(this + "<c:/model/retro_oesophageal> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_trunk(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A trunk that leaves the heart; identity is derived from its branches."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ArterialTrunk> .")
    look("ArterialTrunk")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("stated_trunk_identity")) is not None:
        add(this + "<c:/model/stated_trunk_identity> " + (TrunkIdentityEnum.get(value) or text(value)))
    if inners := many(get("arises_from")):
        look(("arises_from", iri))
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/arises_from/{number}"
            add(this + "<c:/model/arises_from> <" + where + "> .")
            emit_commitment(add, look, where, inner, top)
    if (value := get("overriding")) is not None:
        look(("overriding", iri))
        add(this + "<c:/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        look(("override_per_cent", iri))
        add(this + "<c:/model/override_per_cent> " + decimal(value))
    if (value := get("gives_coronary_arteries")) is not None:
        add(this + "<c:/model/gives_coronary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("gives_arch_branches")) is not None:
        add(this + "<c:/model/gives_arch_branches> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("gives_pulmonary_arteries")) is not None:
        add(this + "<c:/model/gives_pulmonary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("trunk_calibre")) is not None:
        add(this + "<c:/model/trunk_calibre> " + (TrunkCalibreEnum.get(value) or text(value)))
    if (value := get("cord_to_ventricle")) is not None:
        add(this + "<c:/model/cord_to_ventricle> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cut_level")) is not None:
        add(this + "<c:/model/cut_level> " + (CutLevelEnum.get(value) or text(value)))
    if (value := get("dominance")) is not None:
        add(this + "<c:/model/dominance> " + (TrunkDominanceEnum.get(value) or text(value)))
    if (value := get("pulmonary_origin_pattern")) is not None:
        add(this + "<c:/model/pulmonary_origin_pattern> " + (PulmonaryOriginEnum.get(value) or text(value)))
    if (value := get("intrapericardial_pulmonary_arteries")) is not None:
        add(this + "<c:/model/intrapericardial_pulmonary_arteries> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("collateral_arteries")) is not None:
        add(this + "<c:/model/collateral_arteries> " + (PresenceEnum.get(value) or text(value)))


def emit_arterial_valve(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A valve at the root of an arterial trunk."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ArterialValve> .")
    look("ArterialValve")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("stated_arterial_valve")) is not None:
        add(this + "<c:/model/stated_arterial_valve> " + (ArterialTargetEnum.get(value) or text(value)))
    if (value := get("valve_patency")) is not None:
        look(("valve_patency", iri))
        add(this + "<c:/model/valve_patency> " + (ValvePatencyEnum.get(value) or text(value)))
    if (value := get("leaflet_count")) is not None:
        add(this + "<c:/model/leaflet_count> " + integer(value))
    if (value := get("sinus_count")) is not None:
        add(this + "<c:/model/sinus_count> " + integer(value))
    if (value := get("commissure_count")) is not None:
        add(this + "<c:/model/commissure_count> " + integer(value))
    if (value := get("raphe_count")) is not None:
        add(this + "<c:/model/raphe_count> " + integer(value))
    if (value := get("fusion_pattern")) is not None:
        add(this + "<c:/model/fusion_pattern> " + (FusionPatternEnum.get(value) or text(value)))
    if (value := get("two_leaflet_type")) is not None:
        add(this + "<c:/model/two_leaflet_type> " + (TwoLeafletTypeEnum.get(value) or text(value)))
    if (value := get("dysplasia")) is not None:
        add(this + "<c:/model/dysplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("stenosis")) is not None:
        add(this + "<c:/model/stenosis> " + (PresenceEnum.get(value) or text(value)))


def emit_atrial_septum(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The wall between the atria."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AtrialSeptum> .")
    look("AtrialSeptum")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("septal_integrity")) is not None:
        add(this + "<c:/model/septal_integrity> " + (SeptalIntegrityEnum.get(value) or text(value)))


def emit_atrioventricular_junction(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The junction of one atrium with the ventricular mass; state absent means that the atrium has no junction."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AtrioventricularJunction> .")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("atrium")) is not None:
        add(this + "<c:/model/atrium> <" + top + "/part/" + name(value) + "> .")
    if inners := many(get("opens_into")):
        look(("opens_into", iri))
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/opens_into/{number}"
            add(this + "<c:/model/opens_into> <" + where + "> .")
            emit_commitment(add, look, where, inner, top)
    if (value := get("floor_tissue")) is not None:
        add(this + "<c:/model/floor_tissue> " + (FloorTissueEnum.get(value) or text(value)))
    if (value := get("overriding")) is not None:
        look(("overriding", iri))
        add(this + "<c:/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        look(("override_per_cent", iri))
        add(this + "<c:/model/override_per_cent> " + decimal(value))


def emit_atrioventricular_junctions(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The two junctions seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AtrioventricularJunctions> .")
    look("AtrioventricularJunctions")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("junction_pattern")) is not None:
        add(this + "<c:/model/junction_pattern> " + (JunctionPatternEnum.get(value) or text(value)))
    if (value := get("valvar_orifices")) is not None:
        add(this + "<c:/model/valvar_orifices> " + (ValvarOrificesEnum.get(value) or text(value)))
    if (value := get("atrioventricular_septum")) is not None:
        add(this + "<c:/model/atrioventricular_septum> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("hinge_offset_direction")) is not None:
        add(this + "<c:/model/hinge_offset_direction> " + (HingeOffsetEnum.get(value) or text(value)))
    if (value := get("hinge_offset_mm")) is not None:
        add(this + "<c:/model/hinge_offset_mm> " + decimal(value))
    if (value := get("outlet_inlet_ratio")) is not None:
        add(this + "<c:/model/outlet_inlet_ratio> " + (OutletInletEnum.get(value) or text(value)))
    if (value := get("ventricular_balance")) is not None:
        look(("ventricular_balance", iri))
        add(this + "<c:/model/ventricular_balance> " + (VentricularBalanceEnum.get(value) or text(value)))
    if (value := get("per_cent_to_left_ventricle")) is not None:
        add(this + "<c:/model/per_cent_to_left_ventricle> " + decimal(value))


def emit_atrioventricular_valve(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A valve that guards an atrioventricular junction, named by side; identity is derived."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/AtrioventricularValve> .")
    look("AtrioventricularValve")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("junction")) is not None:
        add(this + "<c:/model/junction> <" + top + "/part/" + name(value) + "> .")
    if (value := get("stated_valve_type")) is not None:
        add(this + "<c:/model/stated_valve_type> " + (ValveTypeEnum.get(value) or text(value)))
    if (value := get("valve_patency")) is not None:
        look(("valve_patency", iri))
        add(this + "<c:/model/valve_patency> " + (ValvePatencyEnum.get(value) or text(value)))
    if (value := get("leaflet_count")) is not None:
        add(this + "<c:/model/leaflet_count> " + integer(value))
    if (value := get("septal_leaflet")) is not None:
        add(this + "<c:/model/septal_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("anterosuperior_leaflet")) is not None:
        add(this + "<c:/model/anterosuperior_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("inferior_leaflet")) is not None:
        add(this + "<c:/model/inferior_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("aortic_leaflet")) is not None:
        add(this + "<c:/model/aortic_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("mural_leaflet")) is not None:
        add(this + "<c:/model/mural_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("superior_bridging_leaflet")) is not None:
        add(this + "<c:/model/superior_bridging_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("inferior_bridging_leaflet")) is not None:
        add(this + "<c:/model/inferior_bridging_leaflet> " + (LeafletEnum.get(value) or text(value)))
    if (value := get("septal_chordal_attachment")) is not None:
        add(this + "<c:/model/septal_chordal_attachment> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("papillary_muscles")) is not None:
        add(this + "<c:/model/papillary_muscles> " + (PapillaryPatternEnum.get(value) or text(value)))
    if (value := get("medial_papillary_muscle")) is not None:
        add(this + "<c:/model/medial_papillary_muscle> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("cleft")) is not None:
        add(this + "<c:/model/cleft> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("zone_of_apposition")) is not None:
        add(this + "<c:/model/zone_of_apposition> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("straddling")) is not None:
        add(this + "<c:/model/straddling> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("straddling_degree")) is not None:
        add(this + "<c:/model/straddling_degree> " + (StraddlingDegreeEnum.get(value) or text(value)))
    if (value := get("straddling_attachment")) is not None:
        add(this + "<c:/model/straddling_attachment> " + text(value))
    if (value := get("overriding")) is not None:
        look(("overriding", iri))
        add(this + "<c:/model/overriding> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("override_per_cent")) is not None:
        look(("override_per_cent", iri))
        add(this + "<c:/model/override_per_cent> " + decimal(value))
    if (value := get("free_standing_leaflet_bridging")) is not None:
        look(("free_standing_leaflet_bridging", iri))
        add(this + "<c:/model/free_standing_leaflet_bridging> " + (RastelliEnum.get(value) or text(value)))
    if (value := get("dual_orifice")) is not None:
        add(this + "<c:/model/dual_orifice> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("supravalvar_ring")) is not None:
        add(this + "<c:/model/supravalvar_ring> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("dysplasia")) is not None:
        add(this + "<c:/model/dysplasia> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("stenosis")) is not None:
        add(this + "<c:/model/stenosis> " + (PresenceEnum.get(value) or text(value)))


def emit_atrium(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """An atrial chamber with its appendage, named by side; identity is derived from its features."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Atrium> .")
    look("Atrium")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("appendage_shape")) is not None:
        add(this + "<c:/model/appendage_shape> " + (AppendageShapeEnum.get(value) or text(value)))
    if (value := get("appendage_junction")) is not None:
        add(this + "<c:/model/appendage_junction> " + (AppendageJunctionEnum.get(value) or text(value)))
    if (value := get("terminal_crest")) is not None:
        add(this + "<c:/model/terminal_crest> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("pectinate_extent")) is not None:
        add(this + "<c:/model/pectinate_extent> " + (PectinateExtentEnum.get(value) or text(value)))
    if (value := get("appendage_morphology")) is not None:
        add(this + "<c:/model/appendage_morphology> " + (AppendageMorphologyEnum.get(value) or text(value)))
    if (value := get("appendage_position")) is not None:
        add(this + "<c:/model/appendage_position> " + (AppendagePositionEnum.get(value) or text(value)))
    if (value := get("oval_fossa_rim")) is not None:
        add(this + "<c:/model/oval_fossa_rim> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("oval_fossa_flap")) is not None:
        add(this + "<c:/model/oval_fossa_flap> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("divided_atrium")) is not None:
        add(this + "<c:/model/divided_atrium> " + (DividedAtriumEnum.get(value) or text(value)))
    if (value := get("stated_atrial_identity")) is not None:
        add(this + "<c:/model/stated_atrial_identity> " + (AtrialIdentityEnum.get(value) or text(value)))


def emit_collection(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A set of specimens kept by one institution."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_commitment(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Share of a junction or arterial root that belongs to one ventricle."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("ventricle")) is not None:
        add(this + "<c:/model/ventricle> <" + top + "/part/" + name(value) + "> .")
    if (value := get("per_cent")) is not None:
        add(this + "<c:/model/per_cent> " + decimal(value))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_conclusion_basis(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """What one stated conclusion rests on."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ConclusionBasis> .")
    look("ConclusionBasis")
    if (value := get("conclusion")) is not None:
        add(this + "<c:/model/conclusion> " + (ConclusionNameEnum.get(value) or text(value)))
    if values := many(get("rests_on")):
        for value in values:
            add(this + "<c:/model/rests_on> " + text(value))
    if (value := get("inference_note")) is not None:
        add(this + "<c:/model/inference_note> " + text(value))


def emit_conduction_finding(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A part of the conduction system that was found, not expected."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ConductionFinding> .")
    look("ConductionFinding")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("conduction_structure")) is not None:
        add(this + "<c:/model/conduction_structure> " + (ConductionStructureEnum.get(value) or text(value)))
    if (value := get("conduction_place")) is not None:
        add(this + "<c:/model/conduction_place> " + text(value))
    if (value := get("histology_reference")) is not None:
        add(this + "<c:/model/histology_reference> " + text(value))


def emit_coronary_arteries(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The arteries of the heart."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/CoronaryArteries> .")
    look("CoronaryArteries")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("leiden_code")) is not None:
        look(("leiden_code", iri))
        add(this + "<c:/model/leiden_code> " + text(value))
    if (value := get("viewing_convention")) is not None:
        add(this + "<c:/model/viewing_convention> " + (ViewingConventionEnum.get(value) or text(value)))
    if (value := get("right_coronary_origin")) is not None:
        add(this + "<c:/model/right_coronary_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("left_coronary_origin")) is not None:
        add(this + "<c:/model/left_coronary_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("circumflex_origin")) is not None:
        add(this + "<c:/model/circumflex_origin> " + (CoronaryOriginEnum.get(value) or text(value)))
    if (value := get("single_coronary_artery")) is not None:
        add(this + "<c:/model/single_coronary_artery> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("duplicate_coronary_origin")) is not None:
        add(this + "<c:/model/duplicate_coronary_origin> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("orifice_level")) is not None:
        add(this + "<c:/model/orifice_level> " + (OrificeLevelEnum.get(value) or text(value)))
    if (value := get("paracommissural_orifice")) is not None:
        add(this + "<c:/model/paracommissural_orifice> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("intramural_course")) is not None:
        add(this + "<c:/model/intramural_course> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("coronary_fistula")) is not None:
        add(this + "<c:/model/coronary_fistula> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("coronary_dominance")) is not None:
        add(this + "<c:/model/coronary_dominance> " + (CoronaryDominanceEnum.get(value) or text(value)))


def emit_derived_conclusions(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """What the toolkit derives from the recorded features, each with its ground."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/DerivedConclusions> .")
    look("DerivedConclusions")
    if (value := get("topology")) is not None:
        add(this + "<c:/model/topology> " + (TopologyEnum.get(value) or text(value)))
    if (value := get("av_connection")) is not None:
        add(this + "<c:/model/av_connection> " + (AtrioventricularConnectionEnum.get(value) or text(value)))
    if (value := get("va_connection")) is not None:
        add(this + "<c:/model/va_connection> " + (VentriculoarterialConnectionEnum.get(value) or text(value)))
    if (value := get("notation")) is not None:
        add(this + "<c:/model/notation> " + text(value))
    if (value := get("arrangement")) is not None:
        add(this + "<c:/model/atrial_arrangement> " + (AtrialArrangementEnum.get(value) or text(value)))
    if inners := many(get("identities")):
        for last, inner in keyed(inners, "part"):
            where = f"{iri}/identity/{last}"
            emit_derived_identity(add, look, where, inner, top)


def emit_derived_identity(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Identity of one part as derived from its features."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("part")) is not None:
        add(this + "<c:/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("identity")) is not None:
        add(this + "<c:/model/identity> " + term(value))


def emit_description(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Who described the specimen, when, how and in whose words."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("observer")) is not None:
        add(this + "<c:/model/observer> " + text(value))
    if (value := get("described_on")) is not None:
        add(this + "<c:/model/described_on> " + date(value))
    if (value := get("school")) is not None:
        add(this + "<c:/model/school> " + (SchoolEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_evidence(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A photograph, sequence, scan, drawing or report that shows what is stated."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Evidence> .")
    look("Evidence")
    if (value := get("evidence_kind")) is not None:
        add(this + "<c:/model/evidence_kind> " + (EvidenceKindEnum.get(value) or text(value)))
    if (value := get("selector")) is not None:
        add(this + "<c:/model/selector> " + text(value))
    if inners := many(get("shows")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/shows/{number}"
            add(this + "<c:/model/shows> <" + where + "> .")
            emit_evidence_target(add, look, where, inner, top)
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_evidence_target(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A part, and if wanted one of its features, that evidence shows."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("part")) is not None:
        add(this + "<c:/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("feature")) is not None:
        add(this + "<c:/model/feature> " + text(value))


def emit_feature_observation(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """What is added to one feature of a part: its state where the feature is a number or words, reason, certainty, evidence."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/FeatureObservation> .")
    look("FeatureObservation")
    if (value := get("feature")) is not None:
        add(this + "<c:/model/feature> " + text(value))
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if values := many(get("evidence_refs")):
        for value in values:
            add(this + "<c:/model/evidence_refs> <" + top + "/evidence/" + name(value) + "> .")
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if (value := get("quote")) is not None:
        look(("quote", iri))
        add(this + "<c:/model/quote> " + text(value))


def emit_great_arteries(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The trunks seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/GreatArteries> .")
    look("GreatArteries")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("aorta_relation")) is not None:
        add(this + "<c:/model/aorta_relation> " + (AortaRelationEnum.get(value) or text(value)))
    if (value := get("trunk_course")) is not None:
        add(this + "<c:/model/trunk_course> " + (TrunkCourseEnum.get(value) or text(value)))
    if (value := get("aortopulmonary_window")) is not None:
        add(this + "<c:/model/aortopulmonary_window> " + (PresenceEnum.get(value) or text(value)))


def emit_heart_position(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Place of the heart in the chest and direction of its apex: two fields, never derived from each other."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/HeartPosition> .")
    look("HeartPosition")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("cardiac_position")) is not None:
        add(this + "<c:/model/cardiac_position> " + (CardiacPositionEnum.get(value) or text(value)))
    if (value := get("apex")) is not None:
        add(this + "<c:/model/apex> " + (ApexEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<c:/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_interatrial_communication(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A hole between the atria."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/InteratrialCommunication> .")
    look("InteratrialCommunication")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("interatrial_location")) is not None:
        add(this + "<c:/model/interatrial_location> " + (InteratrialLocationEnum.get(value) or text(value)))
    if (value := get("patency")) is not None:
        look(("patency", iri))
        add(this + "<c:/model/patency> " + (CommunicationPatencyEnum.get(value) or text(value)))


def emit_interventricular_communication(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A hole between the ventricles, described by borders and by geography."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/InterventricularCommunication> .")
    look("InterventricularCommunication")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("stated_border_category")) is not None:
        add(this + "<c:/model/stated_border_category> " + (BorderCategoryEnum.get(value) or text(value)))
    if (value := get("geography")) is not None:
        add(this + "<c:/model/geography> " + (DefectGeographyEnum.get(value) or text(value)))
    if (value := get("roof_rim")) is not None:
        add(this + "<c:/model/roof_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("posteroinferior_rim")) is not None:
        add(this + "<c:/model/posteroinferior_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("anterior_rim")) is not None:
        add(this + "<c:/model/anterior_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("caudal_rim")) is not None:
        add(this + "<c:/model/caudal_rim> " + (RimEnum.get(value) or text(value)))
    if (value := get("tricuspid_mitral_continuity")) is not None:
        add(this + "<c:/model/tricuspid_mitral_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("aortic_tricuspid_continuity")) is not None:
        add(this + "<c:/model/aortic_tricuspid_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("arterial_valvar_continuity")) is not None:
        add(this + "<c:/model/arterial_valvar_continuity> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("between_limbs")) is not None:
        add(this + "<c:/model/between_limbs> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("commitment")) is not None:
        add(this + "<c:/model/commitment> " + (CommitmentEnum.get(value) or text(value)))
    if (value := get("malalignment")) is not None:
        add(this + "<c:/model/malalignment> " + (MalalignmentEnum.get(value) or text(value)))
    if (value := get("restrictive")) is not None:
        add(this + "<c:/model/restrictive> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("plane_of_closure")) is not None:
        add(this + "<c:/model/plane_of_closure> " + (PlaneOfClosureEnum.get(value) or text(value)))
    if (value := get("opens_to_atrium")) is not None:
        add(this + "<c:/model/opens_to_atrium> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("patency")) is not None:
        look(("patency", iri))
        add(this + "<c:/model/patency> " + (CommunicationPatencyEnum.get(value) or text(value)))


def emit_material_condition(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """State of one structure of the specimen as material."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/MaterialCondition> .")
    look("MaterialCondition")
    if (value := get("structure")) is not None:
        add(this + "<c:/model/structure> " + text(value))
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_measurement(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A measured number."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Measurement> .")
    look("Measurement")
    if (value := get("part")) is not None:
        add(this + "<c:/model/part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("quantity")) is not None:
        add(this + "<c:/model/quantity> " + (QuantityEnum.get(value) or text(value)))
    if (value := get("value")) is not None:
        add(this + "<c:/model/value> " + decimal(value))
    if (value := get("unit")) is not None:
        add(this + "<c:/model/unit> " + text(value))
    if (value := get("method")) is not None:
        add(this + "<c:/model/method> " + text(value))
    if (value := get("site")) is not None:
        add(this + "<c:/model/site> " + text(value))
    if (value := get("material_state")) is not None:
        add(this + "<c:/model/material_state> " + (MaterialStateEnum.get(value) or text(value)))
    if (value := get("reference_set")) is not None:
        add(this + "<c:/model/reference_set> " + text(value))
    if (value := get("body_measure")) is not None:
        add(this + "<c:/model/body_measure> " + text(value))
    if (value := get("modality")) is not None:
        add(this + "<c:/model/modality> " + text(value))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_outflow_tract(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The way from a ventricle to one arterial valve."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/OutflowTract> .")
    look("OutflowTract")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("outflow_of")) is not None:
        add(this + "<c:/model/outflow_of> " + (ArterialTargetEnum.get(value) or text(value)))
    if (value := get("ventricle")) is not None:
        add(this + "<c:/model/ventricle> <" + top + "/part/" + name(value) + "> .")
    if (value := get("infundibulum_below")) is not None:
        add(this + "<c:/model/infundibulum_below> " + (InfundibularMuscleEnum.get(value) or text(value)))
    if (value := get("arterial_atrioventricular_continuity")) is not None:
        add(this + "<c:/model/arterial_atrioventricular_continuity> " + (FibrousContinuityEnum.get(value) or text(value)))
    if values := many(get("obstruction")):
        for value in values:
            add(this + "<c:/model/obstruction> " + (ObstructionEnum.get(value) or text(value)))


def emit_outflow_tracts(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The outflow tracts seen together."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/OutflowTracts> .")
    look("OutflowTracts")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("infundibulum")) is not None:
        add(this + "<c:/model/infundibulum> " + (InfundibulumPatternEnum.get(value) or text(value)))
    if (value := get("outlet_septum")) is not None:
        add(this + "<c:/model/outlet_septum> " + (OutletSeptumEnum.get(value) or text(value)))
    if (value := get("outlet_septum_deviation")) is not None:
        add(this + "<c:/model/outlet_septum_deviation> " + (OutletSeptumDeviationEnum.get(value) or text(value)))
    if (value := get("septoparietal_hypertrophy")) is not None:
        add(this + "<c:/model/septoparietal_hypertrophy> " + (PresenceEnum.get(value) or text(value)))


def emit_pulmonary_veins(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Veins that bring blood from the lungs."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/PulmonaryVeins> .")
    look("PulmonaryVeins")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("pulmonary_vein_count")) is not None:
        add(this + "<c:/model/pulmonary_vein_count> " + integer(value))
    if (value := get("pulmonary_venous_connection")) is not None:
        add(this + "<c:/model/pulmonary_venous_connection> " + (PulmonaryVenousConnectionEnum.get(value) or text(value)))
    if (value := get("anomalous_site")) is not None:
        add(this + "<c:/model/anomalous_site> " + (AnomalousVenousSiteEnum.get(value) or text(value)))
    if (value := get("pulmonary_veins_to_left_atrium")) is not None:
        add(this + "<c:/model/pulmonary_veins_to_left_atrium> " + integer(value))
    if (value := get("venous_obstruction")) is not None:
        add(this + "<c:/model/venous_obstruction> " + (PresenceEnum.get(value) or text(value)))


def emit_record(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """One description of one specimen by one observer."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Record> .")
    look("Record")
    if (inner := get("specimen")) is not None:
        add(this + "<c:/model/specimen> <" + iri + "/specimen> .")
        emit_specimen(add, look, iri + "/specimen", inner, top)
    if (inner := get("description")) is not None:
        add(this + "<c:/model/description> <" + iri + "/description> .")
        emit_description(add, look, iri + "/description", inner, top)
    if inners := many(get("parts")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/part/{last}"
            add(this + "<c:/model/parts> <" + where + "> .")
            PART[inner["type"]](add, look, where, inner, top)
    if inners := many(get("measurements")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/measurement/{last}"
            add(this + "<c:/model/measurements> <" + where + "> .")
            emit_measurement(add, look, where, inner, top)
    if inners := many(get("evidence")):
        for last, inner in keyed(inners, "id"):
            where = f"{iri}/evidence/{last}"
            add(this + "<c:/model/evidence> <" + where + "> .")
            emit_evidence(add, look, where, inner, top)
    if (inner := get("stated")) is not None:
        add(this + "<c:/model/stated> <" + iri + "/stated> .")
        emit_stated_conclusions(add, look, iri + "/stated", inner, top)
    if (inner := get("derived")) is not None:
        add(this + "<c:/model/derived> <" + iri + "/derived> .")
        emit_derived_conclusions(add, look, iri + "/derived", inner, top)
    if inners := many(get("waivers")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/waiver/{number}"
            emit_waiver(add, look, where, inner, top)
    if inners := many(get("remarks")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/remark/{number}"
            emit_remark(add, look, where, inner, top)


def emit_remark(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Free words of the catalogue that were kept as text and not interpreted."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("text")) is not None:
        look(("text", iri))
        add(this + "<c:/model/text> " + text(value))


def emit_specimen(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A heart, with or without neighbouring organs, kept for teaching or research."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Specimen> .")
    look("Specimen")
    if (value := get("accession")) is not None:
        add(this + "<c:/model/accession> " + text(value))
    if (value := get("loan_from")) is not None:
        add(this + "<c:/model/loan_from> " + text(value))
    if (value := get("material")) is not None:
        add(this + "<c:/model/material> " + (MaterialEnum.get(value) or text(value)))
    if (value := get("fixation")) is not None:
        add(this + "<c:/model/fixation> " + (MaterialStateEnum.get(value) or text(value)))
    if inners := many(get("material_states")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/material_states/{number}"
            add(this + "<c:/model/material_states> <" + where + "> .")
            emit_material_condition(add, look, where, inner, top)
    if (value := get("operated")) is not None:
        add(this + "<c:/model/operated> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("age_group")) is not None:
        add(this + "<c:/model/age_group> " + (AgeGroupEnum.get(value) or text(value)))
    if (value := get("age_text")) is not None:
        look(("age_text", iri))
        add(this + "<c:/model/age_text> " + text(value))
    if (value := get("acquired")) is not None:
        add(this + "<c:/model/acquired> " + date(value))
    if (value := get("consent")) is not None:
        add(this + "<c:/model/consent> " + (ConsentEnum.get(value) or text(value)))
    if values := many(get("consent_scope")):
        for value in values:
            add(this + "<c:/model/consent_scope> " + (ConsentScopeEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))


def emit_stated_conclusions(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """What the observer concluded."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/StatedConclusions> .")
    look("StatedConclusions")
    if (value := get("topology")) is not None:
        add(this + "<c:/model/topology> " + (TopologyEnum.get(value) or text(value)))
    if (value := get("av_connection")) is not None:
        add(this + "<c:/model/av_connection> " + (AtrioventricularConnectionEnum.get(value) or text(value)))
    if (value := get("va_connection")) is not None:
        add(this + "<c:/model/va_connection> " + (VentriculoarterialConnectionEnum.get(value) or text(value)))
    if (value := get("notation")) is not None:
        add(this + "<c:/model/notation> " + text(value))
    if (value := get("atrial_arrangement")) is not None:
        add(this + "<c:/model/atrial_arrangement> " + (AtrialArrangementEnum.get(value) or text(value)))
    if values := many(get("diagnoses")):
        for value in values:
            add(this + "<c:/model/diagnoses> " + term(value))
    if (value := get("statement")) is not None:
        look(("statement", iri))
        add(this + "<c:/model/statement> " + text(value))
    if inners := many(get("conclusion_basis")):
        for number, inner in enumerate(inners, 1):
            where = f"{iri}/conclusion_basis/{number}"
            add(this + "<c:/model/conclusion_basis> <" + where + "> .")
            emit_conclusion_basis(add, look, where, inner, top)
    if (value := get("inference_note")) is not None:
        add(this + "<c:/model/inference_note> " + text(value))
    if (value := get("disharmony")) is not None:
        add(this + "<c:/model/disharmony> " + (DisharmonyEnum.get(value) or text(value)))
    if (value := get("convention")) is not None:
        add(this + "<c:/model/convention> " + (SchoolEnum.get(value) or text(value)))


def emit_surgical_finding(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The trace of an operation, apart from the native anatomy."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/SurgicalFinding> .")
    look("SurgicalFinding")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("procedure")) is not None:
        add(this + "<c:/model/procedure> " + (ProcedureEnum.get(value) or text(value)))
    if (value := get("operated_part")) is not None:
        add(this + "<c:/model/operated_part> <" + top + "/part/" + name(value) + "> .")
    if (value := get("native_state_known")) is not None:
        add(this + "<c:/model/native_state_known> " + (PresenceEnum.get(value) or text(value)))


def emit_systemic_veins(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Veins that bring blood from the body and the heart itself."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/SystemicVeins> .")
    look("SystemicVeins")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("right_superior_caval_vein")) is not None:
        add(this + "<c:/model/right_superior_caval_vein> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("left_superior_caval_vein")) is not None:
        add(this + "<c:/model/left_superior_caval_vein> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("left_superior_caval_vein_to")) is not None:
        add(this + "<c:/model/left_superior_caval_vein_to> " + (CavalDrainageEnum.get(value) or text(value)))
    if (value := get("inferior_caval_vein")) is not None:
        add(this + "<c:/model/inferior_caval_vein> " + (InferiorCavalVeinEnum.get(value) or text(value)))
    if (value := get("azygos_continuation")) is not None:
        add(this + "<c:/model/azygos_continuation> " + (SideEnum.get(value) or text(value)))
    if (value := get("hepatic_veins_to")) is not None:
        add(this + "<c:/model/hepatic_veins_to> " + (AtrialSideEnum.get(value) or text(value)))
    if (value := get("coronary_sinus")) is not None:
        add(this + "<c:/model/coronary_sinus> " + (CoronarySinusEnum.get(value) or text(value)))


def emit_thoracic_organs(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """Lungs and bronchi."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/ThoracicOrgans> .")
    look("ThoracicOrgans")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("right_sided_bronchus")) is not None:
        add(this + "<c:/model/right_sided_bronchus> " + (BronchusEnum.get(value) or text(value)))
    if (value := get("left_sided_bronchus")) is not None:
        add(this + "<c:/model/left_sided_bronchus> " + (BronchusEnum.get(value) or text(value)))
    if (value := get("right_sided_lung_lobes")) is not None:
        add(this + "<c:/model/right_sided_lung_lobes> " + integer(value))
    if (value := get("left_sided_lung_lobes")) is not None:
        add(this + "<c:/model/left_sided_lung_lobes> " + integer(value))
    if (value := get("bronchial_arrangement")) is not None:
        add(this + "<c:/model/bronchial_arrangement> " + (OrganArrangementEnum.get(value) or text(value)))
    if (value := get("arrangement_source")) is not None:
        add(this + "<c:/model/arrangement_source> " + (ArrangementSourceEnum.get(value) or text(value)))


def emit_ventricle(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A ventricular chamber; identity is derived from its apical part."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/Ventricle> .")
    look("Ventricle")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if values := many(get("ventricle_position")):
        for value in values:
            add(this + "<c:/model/ventricle_position> " + (VentriclePositionEnum.get(value) or text(value)))
    if (value := get("stated_ventricular_identity")) is not None:
        add(this + "<c:/model/stated_ventricular_identity> " + (VentricularIdentityEnum.get(value) or text(value)))
    if (value := get("apical_trabeculation")) is not None:
        add(this + "<c:/model/apical_trabeculation> " + (ApicalTrabeculationEnum.get(value) or text(value)))
    if (value := get("septomarginal_trabeculation")) is not None:
        add(this + "<c:/model/septomarginal_trabeculation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("moderator_band")) is not None:
        add(this + "<c:/model/moderator_band> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("septal_surface")) is not None:
        add(this + "<c:/model/septal_surface> " + (SeptalSurfaceEnum.get(value) or text(value)))
    if (value := get("septal_valve_attachments")) is not None:
        add(this + "<c:/model/septal_valve_attachments> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("ventricle_size")) is not None:
        add(this + "<c:/model/ventricle_size> " + (ChamberSizeEnum.get(value) or text(value)))
    if (value := get("completeness")) is not None:
        add(this + "<c:/model/completeness> " + (CompletenessEnum.get(value) or text(value)))
    if (value := get("inlet_component")) is not None:
        add(this + "<c:/model/inlet_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("apical_component")) is not None:
        add(this + "<c:/model/apical_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("outlet_component")) is not None:
        add(this + "<c:/model/outlet_component> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("second_ventricle_sought")) is not None:
        add(this + "<c:/model/second_ventricle_sought> " + (SoughtEnum.get(value) or text(value)))
    if (value := get("noncompaction")) is not None:
        add(this + "<c:/model/noncompaction> " + (PresenceEnum.get(value) or text(value)))


def emit_ventricular_mass(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """How the ventricles lie to each other; never a ground for connections."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/VentricularMass> .")
    look("VentricularMass")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("right_ventricle_lateral")) is not None:
        add(this + "<c:/model/right_ventricle_lateral> " + (LateralRelationEnum.get(value) or text(value)))
    if (value := get("right_ventricle_anteroposterior")) is not None:
        add(this + "<c:/model/right_ventricle_anteroposterior> " + (AnteroposteriorRelationEnum.get(value) or text(value)))
    if (value := get("right_ventricle_vertical")) is not None:
        add(this + "<c:/model/right_ventricle_vertical> " + (VerticalRelationEnum.get(value) or text(value)))
    if (value := get("twisting")) is not None:
        add(this + "<c:/model/twisting> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("tilting")) is not None:
        add(this + "<c:/model/tilting> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("whole_heart_rotation")) is not None:
        add(this + "<c:/model/whole_heart_rotation> " + (PresenceEnum.get(value) or text(value)))
    if (value := get("ventricular_balance")) is not None:
        look(("ventricular_balance", iri))
        add(this + "<c:/model/ventricular_balance> " + (VentricularBalanceEnum.get(value) or text(value)))


def emit_ventricular_septum(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """The wall between the ventricles."""
    this = f"<{iri}> "
    get = node.get
    add(this + "<http://www.w3.org/1999/02/22-rdf-syntax-ns#type> <c:/model/VentricularSeptum> .")
    look("VentricularSeptum")
    if (value := get("state")) is not None:
        look(("state", iri))
        add(this + "<c:/model/state> " + (ObservationStateEnum.get(value) or text(value)))
    if (value := get("state_reason")) is not None:
        look(("state_reason", iri))
        add(this + "<c:/model/state_reason> " + (AssessabilityReasonEnum.get(value) or text(value)))
    if (value := get("side")) is not None:
        add(this + "<c:/model/side> " + (SideEnum.get(value) or text(value)))
    if (value := get("note")) is not None:
        look(("note", iri))
        add(this + "<c:/model/note> " + text(value))
    if inners := many(get("observed")):
        for last, inner in keyed(inners, "feature"):
            where = f"{iri}/observed/{last}"
            add(this + "<c:/model/observed> <" + where + "> .")
            emit_feature_observation(add, look, where, inner, top)
    if (value := get("septal_integrity")) is not None:
        add(this + "<c:/model/septal_integrity> " + (SeptalIntegrityEnum.get(value) or text(value)))
    if (value := get("septal_alignment")) is not None:
        add(this + "<c:/model/septal_alignment> " + (SeptalAlignmentEnum.get(value) or text(value)))
    if (value := get("communication_count")) is not None:
        add(this + "<c:/model/communication_count> " + integer(value))


def emit_waiver(add: Add, look: Look, iri: str, node: Node, top: str) -> None:
    """A curator's confirmation of one warning on one record."""
    this = f"<{iri}> "
    get = node.get
    if (value := get("part")) is not None:
        add(this + "<c:/model/part> <" + top + "/part/" + name(value) + "> .")
    if values := many(get("evidence_refs")):
        for value in values:
            add(this + "<c:/model/evidence_refs> <" + top + "/evidence/" + name(value) + "> .")


CONCLUSIONS: dict[object, Callable[[Add, Look, str, Node, str], None]] = {
    "DerivedConclusions": emit_derived_conclusions,
    "StatedConclusions": emit_stated_conclusions,
}


PART: dict[object, Callable[[Add, Look, str, Node, str], None]] = {
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
