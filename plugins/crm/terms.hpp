// Names of the published models that this plugin writes, with the prefixes of rdf_writer.cpp.
// Source: CIDOC CRM 7.1.3 (2024), CRMba 1.4, CRMarchaeo 2.1.1, CRMinf 1.2.1, CRMsci 3.2, CRMdig 5.0, as RDFS.
#pragma once

namespace lathbook::crm::term {

inline constexpr char type[] = "rdf:type";
inline constexpr char label[] = "rdfs:label";
inline constexpr char comment[] = "rdfs:comment";
inline constexpr char sub_property[] = "rdfs:subPropertyOf";

inline constexpr char physical_relation[] = "crmarchaeo:AP11_has_physical_relation_to";
inline constexpr char produced_unit[] = "crmarchaeo:AP7_produced";
inline constexpr char disturbed_unit[] = "crmarchaeo:AP8_disturbed";
inline constexpr char remains_of[] = "crmarchaeo:AP15_is_or_contains_remains_of";

inline constexpr char stratigraphic_relation[] = "crmarchaeo:AP13_has_stratigraphic_relation_to";

inline constexpr char section_of[] = "crmba:BP1_is_section_of";
inline constexpr char constituent_of[] = "crmba:BP2_is_constituent_of";

inline constexpr char concluded[] = "crminf:J2_concluded_that";
inline constexpr char used_premise[] = "crminf:J1_used_as_premise";
inline constexpr char applied_logic[] = "crminf:J3_applied";
inline constexpr char that[] = "crminf:J4_that";
inline constexpr char holds[] = "crminf:J5_holds_to_be";
inline constexpr char evidence_from[] = "crminf:J7_is_based_on_evidence_from";
inline constexpr char held_for[] = "crminf:J24_held_at_least_for";
inline constexpr char situation_entity[] = "crminf:J28_contains_entity_reference";
inline constexpr char situation_property[] = "crminf:J29_contains_property_type";
inline constexpr char domain[] = "crminf:J30_has_domain";
inline constexpr char range[] = "crminf:J31_has_range";
inline constexpr char property_type[] = "crminf:J32_has_property_type";

inline constexpr char typed_domain[] = "crm:P01_has_domain";
inline constexpr char typed_range[] = "crm:P02_has_range";
inline constexpr char identified_by[] = "crm:P1_is_identified_by";
inline constexpr char has_type[] = "crm:P2_has_type";
inline constexpr char note[] = "crm:P3_has_note";
inline constexpr char time_span[] = "crm:P4_has_time-span";
inline constexpr char took_place_at[] = "crm:P7_took_place_at";
inline constexpr char part_of_period[] = "crm:P9i_forms_part_of";
inline constexpr char falls_within_period[] = "crm:P10_falls_within";
inline constexpr char in_presence_of[] = "crm:P12_occurred_in_the_presence_of";
inline constexpr char carried_out_by[] = "crm:P14_carried_out_by";
inline constexpr char in_role[] = "crm:P14.1_in_the_role_of";
inline constexpr char moved[] = "crm:P25_moved";
inline constexpr char moved_to[] = "crm:P26_moved_to";
inline constexpr char modified[] = "crm:P31_has_modified";
inline constexpr char technique[] = "crm:P32_used_general_technique";
inline constexpr char concerned[] = "crm:P34_concerned";
inline constexpr char identified_state[] = "crm:P35_has_identified";
inline constexpr char measured[] = "crm:P39_measured";
inline constexpr char observed_dimension[] = "crm:P40_observed_dimension";
inline constexpr char dimension[] = "crm:P43_has_dimension";
inline constexpr char condition[] = "crm:P44_has_condition";
inline constexpr char material[] = "crm:P45_consists_of";
inline constexpr char composed_of[] = "crm:P46_is_composed_of";
inline constexpr char forms_part_of[] = "crm:P46i_forms_part_of";
inline constexpr char keeper[] = "crm:P49_has_former_or_current_keeper";
inline constexpr char location[] = "crm:P53_has_former_or_current_location";
inline constexpr char found_on[] = "crm:P56i_is_found_on";
inline constexpr char number_of_parts[] = "crm:P57_has_number_of_parts";
inline constexpr char has_section[] = "crm:P59_has_section";
inline constexpr char shows[] = "crm:P65_shows_visual_item";
inline constexpr char refers_to[] = "crm:P67_refers_to";
inline constexpr char referred_to_by[] = "crm:P67i_is_referred_to_by";
inline constexpr char documented_in[] = "crm:P70i_is_documented_in";
inline constexpr char language[] = "crm:P72_has_language";
inline constexpr char residence[] = "crm:P74_has_current_or_former_residence";
inline constexpr char begin_qualified[] = "crm:P79_beginning_is_qualified_by";
inline constexpr char end_qualified[] = "crm:P80_end_is_qualified_by";
inline constexpr char end_of_begin[] = "crm:P81a_end_of_the_begin";
inline constexpr char begin_of_end[] = "crm:P81b_begin_of_the_end";
inline constexpr char begin_of_begin[] = "crm:P82a_begin_of_the_begin";
inline constexpr char end_of_end[] = "crm:P82b_end_of_the_end";
inline constexpr char place_within[] = "crm:P89_falls_within";
inline constexpr char value[] = "crm:P90_has_value";
inline constexpr char unit[] = "crm:P91_has_unit";
inline constexpr char brought_forth[] = "crm:P92_brought_into_existence";
inline constexpr char took_away[] = "crm:P93_took_out_of_existence";
inline constexpr char created[] = "crm:P94_has_created";
inline constexpr char was_born[] = "crm:P98i_was_born";
inline constexpr char died_in[] = "crm:P100i_died_in";
inline constexpr char title[] = "crm:P102_has_title";
inline constexpr char subject_to[] = "crm:P104_is_subject_to";
inline constexpr char sign_contains[] = "crm:P106_is_composed_of";
inline constexpr char part_of_text[] = "crm:P106i_forms_part_of";
inline constexpr char has_produced[] = "crm:P108_has_produced";
inline constexpr char augmented[] = "crm:P110_augmented";
inline constexpr char added[] = "crm:P111_added";
inline constexpr char diminished[] = "crm:P112_diminished";
inline constexpr char removed[] = "crm:P113_removed";
inline constexpr char carries[] = "crm:P128_carries";
inline constexpr char subject_of[] = "crm:P129i_is_subject_of";
inline constexpr char features_on[] = "crm:P130i_features_are_also_found_on";
inline constexpr char represented_by[] = "crm:P138i_has_representation";
inline constexpr char occupies[] = "crm:P156_occupies";
inline constexpr char spatial_projection[] = "crm:P161_has_spatial_projection";
inline constexpr char temporally_specified[] = "crm:P164_is_temporally_specified_by";
inline constexpr char defined_by[] = "crm:P168_place_is_defined_by";
inline constexpr char starts_no_later[] = "crm:P175_starts_before_or_with_the_start_of";
inline constexpr char starts_no_sooner[] = "crm:P175i_starts_after_or_with_the_start_of";
inline constexpr char ends_by_start[] = "crm:P182_ends_before_or_with_the_start_of";
inline constexpr char ends_before_start[] = "crm:P183_ends_before_the_start_of";
inline constexpr char ends_no_later[] = "crm:P184_ends_before_or_with_the_end_of";
inline constexpr char approximates[] = "crm:P189_approximates";
inline constexpr char content[] = "crm:P190_has_symbolic_content";
inline constexpr char presence_of[] = "crm:P195_was_a_presence_of";
inline constexpr char held_by[] = "crm:P198i_is_held_or_supported_by";

inline constexpr char sampled_from[] = "crmsci:O3_sampled_from";
inline constexpr char sample_removed[] = "crmsci:O5_removed";
inline constexpr char observed[] = "crmsci:O35_observed_entity";

inline constexpr char attributed_to[] = "prov:wasAttributedTo";
inline constexpr char generated_at[] = "prov:generatedAtTime";
inline constexpr char revision_of[] = "prov:wasRevisionOf";
inline constexpr char invalidated_by[] = "prov:wasInvalidatedBy";
inline constexpr char invalidated_at[] = "prov:invalidatedAtTime";
inline constexpr char associated_with[] = "prov:wasAssociatedWith";
inline constexpr char ended_at[] = "prov:endedAtTime";
inline constexpr char influenced_by[] = "prov:wasInfluencedBy";

}  // namespace lathbook::crm::term
